//! The one owner of what the client shows: it sends diagnostics that differ from those on show,
//! drops results that come too late, and clears what belongs to a closed document.
//!
//! It must not know how findings become diagnostics.

use std::collections::HashMap;

use tokio::sync::mpsc::{UnboundedReceiver, UnboundedSender, unbounded_channel};
use tower_lsp::lsp_types::Url;

use super::shown::Shown;

/// Where news about open documents is put. Copies lead to the same publisher.
#[derive(Clone)]
pub(super) struct Publisher {
    queue: UnboundedSender<Notice>,
}

/// Tells one opening of a document from the next.
pub(super) type Opening = u64;

/// News about a document.
#[derive(Debug)]
pub(super) enum Notice {
    /// It was opened.
    Opened(Url, Opening),
    /// It was judged.
    Judged(Opening, Shown),
    /// It was closed.
    Closed(Url),
    /// A rulebook, open or not, was looked at.
    Rulebook(Shown),
}

impl Publisher {
    /// A publisher that hands on what is to be shown to `publish`, one after the other. It is served
    /// by a task of its own.
    pub(super) fn new(publish: impl Fn(Shown) + Send + 'static) -> Self {
        let (queue, notices) = unbounded_channel();
        tokio::spawn(serve(notices, publish));
        Publisher { queue }
    }

    /// Queues a notice.
    pub(super) fn post(&self, notice: Notice) {
        let _ = self.queue.send(notice);
    }
}

async fn serve(mut notices: UnboundedReceiver<Notice>, publish: impl Fn(Shown)) {
    let mut shows = Shows::default();
    while let Some(notice) = notices.recv().await {
        if let Some(news) = shows.update(notice) {
            publish(news);
        }
    }
}

/// What is on show, document by document.
#[derive(Default)]
struct Shows {
    open: HashMap<Url, Show>,
    rulebooks: HashMap<Url, Shown>,
}

struct Show {
    opening: Opening,
    last: Option<Shown>,
}

impl Shows {
    /// What has to be sent after this notice, if anything.
    fn update(&mut self, notice: Notice) -> Option<Shown> {
        match notice {
            Notice::Opened(uri, opening) => {
                let show = self.open.entry(uri).or_insert(Show { opening, last: None });
                show.opening = opening;
                None
            }
            Notice::Judged(opening, params) => self.judged(opening, params),
            Notice::Closed(uri) => cleared(self.open.remove(&uri)?.last?),
            Notice::Rulebook(params) => self.rulebook(params),
        }
    }

    fn rulebook(&mut self, params: Shown) -> Option<Shown> {
        let last = if params.is_empty() {
            Some(self.rulebooks.remove(&params.uri)?)
        } else {
            self.rulebooks.insert(params.uri.clone(), params.clone())
        };
        (last.as_ref() != Some(&params)).then_some(params)
    }

    fn judged(&mut self, opening: Opening, params: Shown) -> Option<Shown> {
        let show = self.open.get_mut(&params.uri).filter(|show| show.opening == opening)?;
        if show.last.as_ref() == Some(&params) {
            return None;
        }
        show.last = Some(params.clone());
        Some(params)
    }
}

fn cleared(shown: Shown) -> Option<Shown> {
    (!shown.is_empty()).then(|| Shown::nothing(shown.uri))
}

#[cfg(test)]
mod tests {
    use tower_lsp::lsp_types::{Diagnostic, PublishDiagnosticsParams, Range, Url};

    use super::{Notice, Shown, Shows};

    fn sheet() -> Url {
        Url::parse("file:///sheet.bicinium").unwrap()
    }

    fn judged(messages: &[&str]) -> Shown {
        let diagnostic = |text: &&str| Diagnostic::new_simple(Range::default(), (*text).to_owned());
        let diagnostics = messages.iter().map(diagnostic).collect();
        PublishDiagnosticsParams::new(sheet(), diagnostics, None).into()
    }

    #[test]
    fn only_what_differs_is_sent() {
        let mut shows = Shows::default();
        assert_eq!(shows.update(Notice::Opened(sheet(), 1)), None);
        assert_eq!(shows.update(Notice::Judged(1, judged(&[]))), Some(judged(&[])));
        assert_eq!(shows.update(Notice::Judged(1, judged(&["a"]))), Some(judged(&["a"])));
        assert_eq!(shows.update(Notice::Judged(1, judged(&["a"]))), None);
        assert_eq!(shows.update(Notice::Judged(1, judged(&["b"]))), Some(judged(&["b"])));
    }

    #[test]
    fn closing_clears_what_is_shown_and_nothing_comes_after() {
        let mut shows = Shows::default();
        shows.update(Notice::Opened(sheet(), 1));
        shows.update(Notice::Judged(1, judged(&["a"])));
        assert_eq!(shows.update(Notice::Closed(sheet())), Some(judged(&[])));
        assert_eq!(shows.update(Notice::Judged(1, judged(&["b"]))), None);
        assert_eq!(shows.update(Notice::Closed(sheet())), None);
    }

    #[test]
    fn a_rulebook_is_shown_while_something_is_wrong_in_it() {
        let mut shows = Shows::default();
        assert_eq!(shows.update(Notice::Rulebook(judged(&[]))), None);
        assert_eq!(shows.update(Notice::Rulebook(judged(&["a"]))), Some(judged(&["a"])));
        assert_eq!(shows.update(Notice::Rulebook(judged(&["a"]))), None);
        assert_eq!(shows.update(Notice::Rulebook(judged(&[]))), Some(judged(&[])));
        assert_eq!(shows.update(Notice::Rulebook(judged(&[]))), None);
    }

    #[test]
    fn what_was_found_before_the_document_was_opened_anew_is_dropped() {
        let mut shows = Shows::default();
        shows.update(Notice::Opened(sheet(), 1));
        shows.update(Notice::Closed(sheet()));
        shows.update(Notice::Opened(sheet(), 2));
        assert_eq!(shows.update(Notice::Judged(1, judged(&["a"]))), None);
        assert_eq!(shows.update(Notice::Judged(2, judged(&["b"]))), Some(judged(&["b"])));
    }
}

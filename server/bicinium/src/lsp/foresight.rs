//! A look ahead while nobody types: whether what stands in the sheets that were judged last can still
//! be finished. It never delays anything: it waits for quiet, and gives up as soon as there is news.
//!
//! It must not know what is found, nor how it is shown.

use std::collections::HashMap;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Weak};
use std::time::Duration;

use bicinium_analysis::Snapshot;
use tokio::sync::mpsc::{UnboundedReceiver, UnboundedSender, unbounded_channel};
use tokio::time::timeout;
use tower_lsp::lsp_types::Url;

use super::documents::Documents;
use crate::features::realizing::{foresee, is_in_doubt};
use crate::searching::{For, search};

/// How long it has to be quiet.
const QUIET: Duration = Duration::from_millis(250);

/// Where it is told that a sheet has been judged. Copies lead to the same look.
#[derive(Clone)]
pub(super) struct Foresight {
    news: UnboundedSender<News>,
}

/// A sheet that has been judged.
struct News {
    uri: Url,
    snapshot: Arc<Snapshot>,
}

/// The news that nobody has looked at yet.
pub(super) struct Unseen(UnboundedReceiver<News>);

impl Foresight {
    /// A place for news, and where they are waiting.
    pub(super) fn new() -> (Self, Unseen) {
        let (news, unseen) = unbounded_channel();
        (Self { news }, Unseen(unseen))
    }

    /// Tells that a sheet has been judged.
    pub(super) fn judged(&self, uri: &Url, snapshot: &Arc<Snapshot>) {
        // Where nobody looks any more, nothing is to be told.
        let _ = self.news.send(News { uri: uri.clone(), snapshot: snapshot.clone() });
    }
}

/// Looks ahead in all sheets of which there are news, as long as there are documents.
pub(super) async fn look(mut unseen: Unseen, documents: Weak<Documents>) {
    let mut sheets = HashMap::new();
    loop {
        if sheets.is_empty() {
            let Some(news) = unseen.0.recv().await else { return };
            sheets.insert(news.uri, news.snapshot);
        }
        while let Ok(Some(news)) = timeout(QUIET, unseen.0.recv()).await {
            sheets.insert(news.uri, news.snapshot);
        }
        let Some((uri, snapshot)) = sheets.iter().next() else { continue };
        let (uri, snapshot) = (uri.clone(), snapshot.clone());
        let (is_news, news) = look_into(snapshot, &mut unseen).await;
        let Some(documents) = documents.upgrade() else { return };
        if is_news {
            documents.tell_again(&uri);
        }
        match news {
            Some(news) => drop(sheets.insert(news.uri, news.snapshot)),
            None => drop(sheets.remove(&uri)),
        }
    }
}

/// Looks into one sheet until there are news; whether anything was found, and the news.
async fn look_into(snapshot: Arc<Snapshot>, unseen: &mut Unseen) -> (bool, Option<News>) {
    let given_up = Arc::new(AtomicBool::new(false));
    let flag = given_up.clone();
    let looking = search(For::Ahead, move || {
        let doubtful = snapshot.noted().filter(|noted| is_in_doubt(noted.judged));
        let going_on = doubtful.take_while(|_| !flag.load(Ordering::Relaxed));
        going_on.filter_map(|noted| foresee(noted.judged, &flag)).count() > 0
    });
    tokio::pin!(looking);
    tokio::select! {
        found = &mut looking => (found.unwrap_or(false), None),
        Some(news) = unseen.0.recv() => {
            given_up.store(true, Ordering::Relaxed);
            (looking.await.unwrap_or(false), Some(news))
        }
    }
}

//! The open documents. They are opened, changed and closed here and nowhere else, in the order in
//! which the client says so.
//!
//! It must not know what is asked about a document.

use std::collections::HashMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use tokio::sync::oneshot;
use tokio::task::spawn_blocking;
use tower_lsp::lsp_types::{DidChangeTextDocumentParams, TextDocumentItem, Url};

use super::client::{ClientProfile, Delivery};
use super::convert;
use super::document::{Document, Judged};
use super::foresight::Foresight;
use super::library::{Borrower, Library, beside};
use super::publisher::{Notice, Opening, Publisher};
use super::refresher::Refresher;
use super::roots::Roots;
use super::rulebooks::{Rulebooks, is_rulebook};
use super::score_pages::ScorePages;
use super::settings::InForce;
use super::sheets::{Sheets, Written};
use super::text::{Encoding, Text};
use super::unopened::Unopened;
use super::worker::{Cause, Settled, Worker};
use crate::features::links::Target;
use crate::waiting::Question;
use crate::workspace::Workspace;

/// All open documents of a client.
pub(super) struct Documents {
    told: Told,
    library: Library,
    rulebooks: Rulebooks,
    roots: Roots,
    unopened: Unopened,
    open: Mutex<Open>,
}

/// Who is told what is thought of documents.
pub(super) struct Told {
    /// Where findings are sent that the client does not ask for.
    pub(super) publisher: Publisher,
    /// Where the client is told to ask again.
    pub(super) refresher: Refresher,
    /// Where it is looked ahead.
    pub(super) foresight: Foresight,
    /// Where sheets are shown as scores.
    pub(super) scores: ScorePages,
}

#[derive(Default)]
struct Open {
    sheets: HashMap<Url, Document>,
    rulebooks: HashMap<Url, Text>,
    openings: Opening,
}

impl Documents {
    /// No document yet.
    pub(super) fn new(told: Told, settings: InForce, roots: Roots) -> Self {
        let library = Library::new(roots.clone(), settings.clone());
        let rulebooks = Rulebooks::new(library.clone(), told.publisher.clone(), settings);
        let unopened = Unopened::new(library.clone(), rulebooks.clone());
        let open = Mutex::default();
        Documents { told, library, rulebooks, roots, unopened, open }
    }

    /// Opens a document; one that is open already begins anew.
    pub(super) fn open(&self, item: &TextDocumentItem, client: &Arc<ClientProfile>) {
        let mut open = self.lock();
        let text = Text::from(&*item.text);
        if is_rulebook(&item.uri) {
            open.rulebooks.insert(item.uri.clone(), text.clone());
            self.rulebooks.open(&item.uri);
        } else {
            let sheet = self.sheet(&mut open, item, text.clone(), client);
            open.sheets.insert(item.uri.clone(), sheet);
        }
        self.tell_others(&open, &item.uri, text, client.encoding);
    }

    fn sheet(
        &self,
        open: &mut Open,
        item: &TextDocumentItem,
        text: Text,
        client: &Arc<ClientProfile>,
    ) -> Document {
        open.openings += 1;
        let settled = self.settled(&item.uri, open.openings, client);
        let borrower = Borrower::new(self.library.clone(), &item.uri);
        let reader = self.rulebooks.reader(item.uri.clone(), client.encoding);
        Document::open(text, item.version, Worker::new(reader, borrower), settled)
    }

    /// Applies the changes of the client, one after the other.
    pub(super) fn change(&self, params: DidChangeTextDocumentParams, client: &ClientProfile) {
        let mut open = self.lock();
        let (uri, version) = (params.text_document.uri, params.text_document.version);
        let mut changed = None;
        for change in params.content_changes {
            if let Some(sheet) = open.sheets.get_mut(&uri) {
                sheet.change(change, version, client.encoding);
                changed = Some(sheet.text());
            } else if let Some(text) = open.rulebooks.get_mut(&uri) {
                text.change(change.range, &change.text, client.encoding);
                changed = Some(text.clone());
            }
        }
        if let Some(text) = changed {
            self.tell_others(&open, &uri, text, client.encoding);
        }
    }

    /// Closes a document and clears what the client shows of it.
    pub(super) fn close(&self, uri: Url, client: &ClientProfile) {
        let mut open = self.lock();
        open.sheets.remove(&uri);
        self.library.drop(&uri);
        if open.rulebooks.remove(&uri).is_some() {
            self.rulebooks.close(&uri);
        }
        self.look_up(&open, &uri, client.encoding);
        self.told.scores.closed(&uri);
        self.told.publisher.post(Notice::Closed(uri));
    }

    /// Says that a file that may not be open has changed on disk.
    pub(super) fn file_changed(&self, uri: &Url, client: &ClientProfile) {
        self.look_up(&self.lock(), uri, client.encoding);
    }

    /// Judges all open documents anew: what was set has changed.
    pub(super) fn begin_anew(&self) {
        self.unopened.forget();
        self.lock().sheets.values().for_each(Document::begin_anew);
    }

    /// Why a rulebook cannot hold where a sheet names none; `None` if it may be that it can.
    pub(super) fn refuses_rulebook(&self, name: &str) -> Option<String> {
        self.rulebooks.refusal(name, &self.roots.folders())
    }

    /// What is thought of every document that is open.
    pub(super) fn ask_all(&self) -> Vec<(Url, oneshot::Receiver<Judged>)> {
        let open = self.lock();
        open.sheets.iter().map(|(uri, sheet)| (uri.clone(), sheet.ask())).collect()
    }

    /// The sheets that are not open.
    pub(super) fn unopened(&self) -> Unopened {
        self.unopened.clone()
    }

    /// What is thought of a document as it is now; `None` if it is not open.
    pub(super) fn ask(&self, uri: &Url) -> Option<oneshot::Receiver<Judged>> {
        self.lock().sheets.get(uri).map(Document::ask)
    }

    /// All sheets, open or not, as they are now.
    pub(super) fn sheets(&self) -> Sheets {
        let open = self.lock();
        let written = open.sheets.iter().map(|(uri, sheet)| sheet.written(uri.clone())).collect();
        Sheets::new(written, self.unopened.written(), self.roots.folders(), self.workspace())
    }

    /// The files that sheets may use as things are now.
    pub(super) fn workspace(&self) -> Workspace {
        self.library.workspace()
    }

    /// A sheet that is open, as it is now.
    pub(super) fn written(&self, uri: &Url) -> Option<Written> {
        self.lock().sheets.get(uri).map(|sheet| sheet.written(uri.clone()))
    }

    /// The text of a rulebook that is open, as it is now.
    pub(super) fn rulebook(&self, uri: &Url) -> Option<Text> {
        self.lock().rulebooks.get(uri).cloned()
    }

    /// The file of what a sheet names; `None` if there is none.
    pub(super) fn file(&self, target: &Target, uri: &Url) -> Option<Url> {
        match target {
            Target::Sheet(path) => beside(uri, path),
            Target::Rulebook(name) => self.rulebooks.file(name, uri),
            Target::Rule(_) => None,
        }
    }

    /// The same for a question that takes its time.
    pub(super) fn question(&self, uri: &Url) -> Option<(Question, oneshot::Receiver<Judged>)> {
        self.lock().sheets.get_mut(uri).map(Document::question)
    }

    /// Shows a document again: more is known of it now.
    pub(super) fn tell_again(&self, uri: &Url) {
        if let Some(sheet) = self.lock().sheets.get(uri) {
            sheet.show_again();
        }
    }

    fn settled(&self, uri: &Url, opening: Opening, client: &Arc<ClientProfile>) -> Settled {
        let (refresher, asking) = (self.told.refresher.clone(), client.clone());
        let (foresight, scores) = (self.told.foresight.clone(), self.told.scores.clone());
        let (uri, client) = (uri.clone(), client.clone());
        let publisher = (client.delivery == Delivery::Push).then(|| self.told.publisher.clone());
        if let Some(publisher) = &publisher {
            publisher.post(Notice::Opened(uri.clone(), opening));
        }
        Arc::new(move |judged, cause| {
            if cause == Cause::Others {
                refresher.wish(&asking);
            }
            scores.judged(&uri, judged);
            if let Some(publisher) = &publisher {
                let shown = convert::diagnostic::shown(judged, &uri, &client);
                publisher.post(Notice::Judged(opening, shown));
            }
            foresight.judged(&uri, &judged.snapshot);
        })
    }

    /// Puts what a document says now where others look it up.
    fn tell_others(&self, open: &Open, uri: &Url, text: Text, encoding: Encoding) {
        self.library.keep(uri, text);
        self.look_up(open, uri, encoding);
    }

    /// Lets all others look again at what a document says.
    fn look_up(&self, open: &Open, uri: &Url, encoding: Encoding) {
        let others = open.sheets.iter().filter(|(other, _)| *other != uri);
        others.for_each(|(_, document)| document.look_up(uri));
        if is_rulebook(uri) {
            let rulebooks = self.rulebooks.clone();
            spawn_blocking(move || rulebooks.look_again(encoding));
        }
    }

    fn lock(&self) -> MutexGuard<'_, Open> {
        self.open.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

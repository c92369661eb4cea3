//! The open documents. They are opened, changed and closed here and nowhere else, in the order in
//! which the client says so.
//!
//! It must not know what is asked about a document.

use std::collections::HashMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use bicinium_analysis::Shelf;
use tokio::sync::oneshot;
use tower_lsp::lsp_types::{DidChangeTextDocumentParams, TextDocumentItem, Url};

use super::client::{ClientProfile, Delivery};
use super::convert;
use super::document::{Document, Judged};
use super::library::{Borrower, Library};
use super::publisher::{Notice, Opening, Publisher};
use super::text::Text;
use super::worker::{Settled, Worker};

/// All open documents of a client.
pub(super) struct Documents {
    publisher: Publisher,
    library: Library,
    shelf: Arc<Shelf>,
    open: Mutex<Open>,
}

#[derive(Default)]
struct Open {
    by_uri: HashMap<Url, Document>,
    openings: Opening,
}

impl Documents {
    /// No document yet; what is found in those to come goes to `publisher`.
    pub(super) fn new(publisher: Publisher) -> Self {
        Documents {
            publisher,
            library: Library::default(),
            shelf: Arc::default(),
            open: Mutex::default(),
        }
    }

    /// Opens a document; one that is open already begins anew.
    pub(super) fn open(&self, item: TextDocumentItem, client: &Arc<ClientProfile>) {
        let mut open = self.lock();
        open.openings += 1;
        let settled = self.settled(&item.uri, open.openings, client);
        let borrower = Borrower::new(self.library.clone(), item.uri.clone());
        let worker = Worker::new(self.shelf.clone(), borrower);
        let document = Document::open(Text::from(&*item.text), item.version, worker, settled);
        self.tell_others(&open, &item.uri, Some(document.text()));
        open.by_uri.insert(item.uri, document);
    }

    /// Applies the changes of the client, one after the other.
    pub(super) fn change(&self, params: DidChangeTextDocumentParams, client: &ClientProfile) {
        let mut open = self.lock();
        let (uri, version) = (params.text_document.uri, params.text_document.version);
        let Some(document) = open.by_uri.get_mut(&uri) else { return };
        for change in params.content_changes {
            document.change(change, version, client.encoding);
        }
        let text = document.text();
        self.tell_others(&open, &uri, Some(text));
    }

    /// Closes a document and clears what the client shows of it.
    pub(super) fn close(&self, uri: Url) {
        let mut open = self.lock();
        open.by_uri.remove(&uri);
        self.tell_others(&open, &uri, None);
        self.publisher.post(Notice::Closed(uri));
    }

    /// Says that a file that may not be open has changed on disk.
    pub(super) fn file_changed(&self, uri: &Url) {
        let open = self.lock();
        open.by_uri.values().for_each(|document| document.look_up(uri));
    }

    /// What is thought of a document as it is now; `None` if it is not open.
    pub(super) fn ask(&self, uri: &Url) -> Option<oneshot::Receiver<Judged>> {
        self.lock().by_uri.get(uri).map(Document::ask)
    }

    /// The text of a document as the client has it now; `None` if it is not open.
    pub(super) fn text(&self, uri: &Url) -> Option<Text> {
        self.lock().by_uri.get(uri).map(Document::text)
    }

    fn settled(&self, uri: &Url, opening: Opening, client: &Arc<ClientProfile>) -> Settled {
        if client.delivery == Delivery::Pull {
            return Arc::new(|_| ());
        }
        self.publisher.post(Notice::Opened(uri.clone(), opening));
        let (publisher, uri, client) = (self.publisher.clone(), uri.clone(), client.clone());
        Arc::new(move |judged| {
            let shown = convert::diagnostic::published(judged, &uri, &client);
            publisher.post(Notice::Judged(opening, shown));
        })
    }

    /// Puts what a sheet says now where others look it up: its text, or its file once it is closed.
    fn tell_others(&self, open: &Open, uri: &Url, text: Option<Text>) {
        match text {
            Some(text) => self.library.keep(uri, text),
            None => self.library.drop(uri),
        }
        let others = open.by_uri.iter().filter(|(other, _)| *other != uri);
        others.for_each(|(_, document)| document.look_up(uri));
    }

    fn lock(&self) -> MutexGuard<'_, Open> {
        self.open.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

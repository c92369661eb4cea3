//! The pages on which open sheets are shown as scores: one for each sheet that somebody wanted to see, on a
//! port of this machine, from then on as long as the server runs. A page shows the text as it stands in
//! the editor, and lights up the note at its cursor.
//!
//! It must not know what is on a page.

mod desk;
mod showing;

use std::collections::HashMap;
use std::io;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, Weak};

use tokio::sync::watch;
use tower_lsp::Client;
use tower_lsp::lsp_types::{Position, Url};

use self::desk::{Desk, Latest};
pub(super) use self::showing::{ADDRESS, SHOW};
use super::client::ClientProfile;
use super::document::Judged;
use super::documents::Documents;
use crate::view::{Attached, Edition, Server, Source};

/// Why a sheet is not shown any more, as the end of a sentence.
const CLOSED: &str = "it is not open in the editor any more";

/// All pages of a client. Copies are the same.
#[derive(Clone)]
pub(super) struct ScorePages {
    client: Client,
    state: Arc<Mutex<State>>,
}

#[derive(Default)]
struct State {
    pages: HashMap<Url, Page>,
    /// How it is known where the cursor is.
    known_by: Tidings,
}

/// Who tells where the cursor is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Tidings {
    /// Whatever was asked about a place.
    #[default]
    Questions,
    /// The client, whenever it moves.
    Client,
}

/// The page of a sheet.
struct Page {
    address: String,
    latest: Latest,
    editions: watch::Sender<Arc<Edition>>,
    cursor: watch::Sender<Option<usize>>,
}

impl ScorePages {
    /// No page yet.
    pub(super) fn new(client: Client) -> Self {
        Self { client, state: Arc::default() }
    }

    /// The address of the page of a sheet, which is made if there is none yet.
    async fn address(
        &self,
        uri: &Url,
        judged: Judged,
        profile: Arc<ClientProfile>,
        documents: Weak<Documents>,
    ) -> io::Result<String> {
        if let Some(page) = self.lock().pages.get(uri) {
            return Ok(page.address.clone());
        }
        let (cursor, cursor_seen) = watch::channel(None);
        let (editions, editions_seen) = watch::channel(Arc::new(edition(uri, 0, &judged)));
        let latest = Latest::new(0, judged);
        let (client, desk_uri) = (self.client.clone(), uri.clone());
        let desk = Desk { client, profile, uri: desk_uri, latest: latest.clone(), documents };
        let editor = Some(Attached { cursor: cursor_seen, editor: Arc::new(desk) });
        let server = Server::bind(Source { editions: editions_seen, editor }, 0).await?;
        let address = server.address().to_string();
        let mut state = self.lock();
        let page = state.pages.entry(uri.clone()).or_insert_with(|| {
            tokio::spawn(server.serve());
            Page { address, latest, editions, cursor }
        });
        Ok(page.address.clone())
    }

    /// Which version of a sheet its page shows; `None` if it has none.
    fn shown_version(&self, uri: &Url) -> Option<i32> {
        self.lock().pages.get(uri).map(|page| page.latest.version())
    }

    /// Shows a sheet as it has been judged now.
    pub(super) fn judged(&self, uri: &Url, judged: &Judged) {
        if let Some(page) = self.lock().pages.get(uri) {
            let number = page.editions.borrow().number + 1;
            page.latest.replace(number, judged.clone());
            page.editions.send_replace(Arc::new(edition(uri, number, judged)));
        }
    }

    /// Says that a sheet is not open any more.
    pub(super) fn closed(&self, uri: &Url) {
        if let Some(page) = self.lock().pages.get(uri) {
            let (number, name) = (page.editions.borrow().number + 1, name(uri));
            let edition = Edition { number, name, sheet: Err(CLOSED.to_owned()) };
            page.editions.send_replace(Arc::new(edition));
        }
    }

    /// Takes note of where the cursor is. Once the client itself has told it, questions do not count.
    pub(super) fn point(
        &self,
        uri: &Url,
        position: Position,
        profile: &ClientProfile,
        by: Tidings,
    ) {
        let mut state = self.lock();
        if by < state.known_by {
            return;
        }
        state.known_by = by;
        if let Some(page) = state.pages.get(uri) {
            let offset = page.latest.offset(position, profile.encoding);
            page.cursor.send_replace(Some(offset));
        }
    }

    fn lock(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

fn edition(uri: &Url, number: u64, judged: &Judged) -> Edition {
    Edition { number, name: name(uri), sheet: Ok(judged.snapshot.clone()) }
}

/// What a sheet is called: the last part of its address.
fn name(uri: &Url) -> String {
    let path = uri.to_file_path().ok();
    let file = path.as_deref().and_then(|path| path.file_name());
    file.map_or_else(|| uri.path().to_owned(), |name| name.to_string_lossy().into_owned())
}

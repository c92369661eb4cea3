//! The rulebooks that open sheets name, and those that are open themselves: open ones as they are
//! on screen, all others as they are on disk. What is wrong in one is shown in its own file as long
//! as an open sheet depends on it or it is open.
//!
//! It must not know what a rulebook decides.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use bicinium_analysis::rulebook::{FILE_END, is_path as names_file};
use bicinium_analysis::sheet::Unjudged;
use bicinium_analysis::{Sheet, Shelf};
use tower_lsp::lsp_types::{PublishDiagnosticsParams, Url};

use super::convert;
use super::library::Library;
use super::publisher::{Notice, Publisher};
use super::settings::InForce;
use super::shown::Shown;
use super::text::Encoding;
use crate::schools::{self, Schools, find};

/// The name of any sheet.
const SHEET: &str = "any.bicinium";

/// Whether a document is no sheet, but may hold a rulebook.
pub(super) fn is_rulebook(uri: &Url) -> bool {
    names_file(uri.path())
}

/// The names of the rulebooks that a sheet may ask for.
pub(super) fn nearby(sheet: &Url) -> Vec<String> {
    let path = sheet.to_file_path().ok();
    path.map(|path| schools::nearby(&path).into_iter().collect()).unwrap_or_default()
}

/// The rulebooks of a client. Copies are the same.
#[derive(Clone)]
pub(super) struct Rulebooks {
    library: Library,
    publisher: Publisher,
    settings: InForce,
    state: Arc<Mutex<State>>,
}

#[derive(Default)]
struct State {
    schools: Schools,
    /// The open files with the addresses that the client has for them.
    open: BTreeMap<PathBuf, Url>,
    /// The files that the open ones depend on, themselves included.
    under_open: BTreeSet<PathBuf>,
    /// The files that sheets depend on, reader by reader.
    under_sheets: HashMap<u64, BTreeSet<PathBuf>>,
    readers: u64,
    /// The files of which something was told.
    told: BTreeSet<PathBuf>,
}

impl Rulebooks {
    /// No rulebook yet; texts on screen come from the library, and what is wrong goes to the
    /// publisher.
    pub(super) fn new(library: Library, publisher: Publisher, settings: InForce) -> Self {
        Rulebooks { library, publisher, settings, state: Arc::default() }
    }

    /// A sheet as one that names rulebooks.
    pub(super) fn reader(&self, sheet: Url, encoding: Encoding) -> Reader {
        let mut state = self.lock();
        state.readers += 1;
        Reader { rulebooks: self.clone(), id: state.readers, sheet, encoding, asked: None }
    }

    /// Takes note that a document was opened.
    pub(super) fn open(&self, uri: &Url) {
        if let Some(path) = own_path(uri) {
            self.lock().open.insert(path, uri.clone());
        }
    }

    /// Takes note that a document was closed.
    pub(super) fn close(&self, uri: &Url) {
        if let Some(path) = own_path(uri) {
            self.lock().open.remove(&path);
            if Url::from_file_path(&path).as_ref() != Ok(uri) {
                // From now on the file goes by another address than the client has for it.
                self.publisher.post(Notice::Rulebook(Shown::nothing(uri.clone())));
            }
        }
    }

    /// Looks again at the open rulebooks and those that they extend.
    pub(super) fn look_again(&self, encoding: Encoding) {
        let mut state = self.lock();
        let open: Vec<_> = state.open.keys().cloned().collect();
        let looked_up = open.iter().flat_map(|path| state.schools.look_up(path, &self.library));
        state.under_open = looked_up.collect();
        self.tell(&mut state, encoding);
    }

    fn find(&self, reader: &Reader, names: &BTreeSet<String>) -> Arc<Shelf> {
        let mut state = self.lock();
        let sheet = reader.sheet.to_file_path().ok();
        let found = state.schools.find(names, sheet.as_deref(), &self.library);
        state.under_sheets.insert(reader.id, found.files);
        self.tell(&mut state, reader.encoding);
        self.with_default(found.shelf)
    }

    /// What a sheet names that is not open. Nothing is told of it: nobody looks at it.
    pub(super) fn lent(&self, asked: BTreeSet<String>, uri: &Url) -> Arc<Shelf> {
        let names = self.names(asked);
        let path = uri.to_file_path().ok();
        let found = self.lock().schools.find(&names, path.as_deref(), &self.library);
        self.with_default(found.shelf)
    }

    fn with_default(&self, books: Arc<Shelf>) -> Arc<Shelf> {
        let settings = self.settings.now();
        let default = settings.rulebook.as_ref().and_then(|name| books.get(name)).cloned();
        match default {
            Some(default) => Arc::new(Shelf::clone(&books).with_default(default)),
            None => books,
        }
    }

    /// The rulebooks that a sheet names, and the one that holds where it names none.
    fn names(&self, named: BTreeSet<String>) -> BTreeSet<String> {
        let default = self.settings.now().rulebook.clone();
        named.into_iter().chain(default).collect()
    }

    /// Why a rulebook cannot hold where a sheet names none, if it is known that it cannot: there is
    /// none of this name, seen from any of the folders.
    pub(super) fn refusal(&self, name: &str, folders: &[PathBuf]) -> Option<String> {
        let is_built_in = Shelf::default().get(name).is_some();
        // What is found from a folder is what is found from a sheet in it.
        let is_found = |folder: &PathBuf| find(name, &folder.join(SHEET), &self.library).is_some();
        let is_known = is_built_in || folders.is_empty() || folders.iter().any(is_found);
        (!is_known).then(|| format!("There is no rulebook {name} in the folders that are open."))
    }

    /// The file of the rulebook that a sheet names; `None` if there is none.
    pub(super) fn file(&self, name: &str, sheet: &Url) -> Option<Url> {
        let sheet = sheet.to_file_path().ok()?;
        Url::from_file_path(find(name, &sheet, &self.library)?).ok()
    }

    fn leave(&self, reader: &Reader) {
        let mut state = self.lock();
        state.under_sheets.remove(&reader.id);
        self.tell(&mut state, reader.encoding);
    }

    /// Tells what is wrong in each file that something depends on, and of the others that nothing is.
    fn tell(&self, state: &mut State, encoding: Encoding) {
        let in_use = state.in_use();
        for path in in_use.union(&state.told) {
            if let Some(news) = state.news(path, in_use.contains(path), encoding) {
                self.publisher.post(Notice::Rulebook(news));
            }
        }
        state.told = in_use;
    }

    fn lock(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl State {
    fn in_use(&self) -> BTreeSet<PathBuf> {
        let files = self.under_sheets.values().flatten().chain(&self.under_open);
        files.cloned().collect()
    }

    fn news(&self, path: &Path, is_in_use: bool, encoding: Encoding) -> Option<Shown> {
        let own = self.open.get(path).cloned();
        let uri = own.or_else(|| Url::from_file_path(path).ok())?;
        let held = self.schools.held(path).filter(|_| is_in_use);
        let shown = held.map(|held| convert::rulebook::diagnostics(held, encoding));
        Some(PublishDiagnosticsParams::new(uri, shown.unwrap_or_default(), None).into())
    }
}

/// The path of a document that is a rulebook by its name. Others with the same ending are told
/// nothing unless a sheet names them.
fn own_path(uri: &Url) -> Option<PathBuf> {
    uri.to_file_path().ok().filter(|path| path.to_string_lossy().ends_with(FILE_END))
}

/// One sheet as one that names rulebooks.
pub(super) struct Reader {
    rulebooks: Rulebooks,
    id: u64,
    sheet: Url,
    encoding: Encoding,
    /// What the sheet was given rulebooks for; `None` if it has been given none.
    asked: Option<BTreeSet<String>>,
}

impl Reader {
    /// What the sheet asks for, which is not judged yet.
    pub(super) fn begin(&mut self, sheet: &Unjudged) -> Arc<Shelf> {
        let names = self.rulebooks.names(sheet.rulebooks());
        let books = self.rulebooks.find(self, &names);
        self.asked = Some(names);
        books
    }

    /// Gives the sheet what it asks for, if it asks for something else than before.
    pub(super) fn shelve(&mut self, sheet: &mut Sheet) {
        let names = self.rulebooks.names(sheet.rulebooks());
        if self.asked.as_ref() != Some(&names) {
            sheet.shelve(self.rulebooks.find(self, &names));
            self.asked = Some(names);
        }
    }

    /// Gives the sheet anew what it asks for; whether anything in it was judged again.
    pub(super) fn shelve_again(&self, sheet: &mut Sheet) -> bool {
        let names = self.asked.as_ref().filter(|names| !names.is_empty());
        names.is_some_and(|names| sheet.shelve(self.rulebooks.find(self, names)).judged > 0)
    }
}

impl Drop for Reader {
    fn drop(&mut self) {
        self.rulebooks.leave(self);
    }
}

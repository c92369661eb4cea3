//! The other texts from which a sheet takes something: those that are open as they are on screen,
//! all others as they are on disk.
//!
//! It must not know what a definition is used for.

use std::collections::HashMap;
use std::path::Path;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use bicinium_analysis::Sheet;
use tower_lsp::lsp_types::Url;

use super::text::Text;
use crate::disk;
use crate::library::{ITSELF, Loans};
use crate::schools::{Disk, Files};

/// The open sheets, for others to look into. Copies are the same library.
#[derive(Clone, Default)]
pub(super) struct Library {
    open: Arc<Mutex<HashMap<Url, Text>>>,
}

impl Library {
    /// Puts in an open sheet as it is now.
    pub(super) fn keep(&self, uri: &Url, text: Text) {
        self.shelf().insert(normal(uri), text);
    }

    /// Takes out a sheet that was closed.
    pub(super) fn drop(&self, uri: &Url) {
        self.shelf().remove(&normal(uri));
    }

    fn shelf(&self) -> MutexGuard<'_, HashMap<Url, Text>> {
        self.open.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn on_screen(&self, path: &Path) -> Option<Text> {
        self.shelf().get(&Url::from_file_path(path).ok()?).cloned()
    }

    fn read(&self, uri: &Url) -> Result<String, String> {
        let open = self.shelf().get(uri).map(Text::to_string);
        open.map_or_else(|| read(uri), Ok)
    }
}

impl Files for Library {
    fn is_there(&self, path: &Path) -> bool {
        self.on_screen(path).is_some() || Disk.is_there(path)
    }

    fn read(&self, path: &Path) -> Result<String, String> {
        match self.on_screen(path).map(|text| text.to_string()) {
            Some(text) if text.len() as u64 > disk::LONGEST_RULEBOOK => {
                Err(disk::too_long(disk::LONGEST_RULEBOOK))
            }
            Some(text) => Ok(text),
            None => Disk.read(path),
        }
    }
}

/// One sheet as a reader of others.
pub(super) struct Borrower {
    library: Library,
    uri: Url,
    loans: Loans,
}

impl Borrower {
    /// The sheet at `uri`.
    pub(super) fn new(library: Library, uri: Url) -> Self {
        Borrower { library, uri, loans: Loans::default() }
    }

    /// Brings what the sheet borrows in line with its `use` lines.
    pub(super) fn borrow(&mut self, sheet: &mut Sheet) {
        let mut loans = std::mem::take(&mut self.loans);
        loans.settle(sheet, &|path| self.read(path));
        self.loans = loans;
    }

    /// Borrows anew what comes from a sheet that has changed; whether anything was judged again.
    pub(super) fn borrow_again(&self, sheet: &mut Sheet, other: &Url) -> bool {
        let other = normal(other);
        let is_meant = |path: &str| self.resolve(path).as_ref() == Some(&other);
        self.loans.renew(sheet, is_meant, &|path| self.read(path))
    }

    /// Borrows anew all that is borrowed.
    pub(super) fn borrow_all_again(&self, sheet: &mut Sheet) {
        self.loans.renew(sheet, |_| true, &|path| self.read(path));
    }

    /// Starts over with a sheet that has borrowed nothing.
    pub(super) fn forget(&mut self) {
        self.loans.forget();
    }

    fn read(&self, path: &str) -> Result<String, String> {
        let uri = self.resolve(path).ok_or("this sheet has no folder yet; save it first")?;
        if uri == normal(&self.uri) {
            return Err(ITSELF.to_owned());
        }
        self.library.read(&uri)
    }

    /// The place that a path means, seen from this sheet.
    fn resolve(&self, path: &str) -> Option<Url> {
        beside(&self.uri, path)
    }
}

/// The place that a path means, seen from a sheet.
pub(super) fn beside(sheet: &Url, path: &str) -> Option<Url> {
    let own = sheet.to_file_path().ok()?;
    let beside = Url::from_file_path(own.parent()?.join(path)).ok()?;
    // Only reading an address resolves the dots in it.
    Url::parse(beside.as_str()).ok()
}

/// The one way in which a file is addressed here; editors differ in what they escape.
pub(super) fn normal(uri: &Url) -> Url {
    uri.to_file_path().and_then(Url::from_file_path).unwrap_or_else(|()| uri.clone())
}

fn read(uri: &Url) -> Result<String, String> {
    let path = uri.to_file_path().map_err(|()| "it is not a file".to_owned())?;
    disk::read(&path)
}

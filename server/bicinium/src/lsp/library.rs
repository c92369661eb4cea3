//! The other texts from which a sheet takes something: those that are open as they are on screen,
//! all others as they are on disk.
//!
//! It must not know what a definition is used for.

use std::cell::OnceCell;
use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use bicinium_analysis::Sheet;
use bicinium_analysis::sheet::{Import, Unjudged};
use tower_lsp::lsp_types::Url;

use super::roots::Roots;
use super::settings::InForce;
use super::text::Text;
use crate::disk;
use crate::library::{Contents, Lender, Loans};
use crate::schools::{Disk, Files};
use crate::workspace::Workspace;

/// The open sheets, for others to look into, and what sheets may look into. Copies are the same library.
#[derive(Clone)]
pub(super) struct Library {
    open: Arc<Mutex<HashMap<Url, OnScreen>>>,
    roots: Roots,
    settings: InForce,
}

/// A sheet that is open.
struct OnScreen {
    text: Text,
    /// The path of its file with all links followed, if it has one.
    real: Option<PathBuf>,
}

impl Library {
    /// No sheet is open yet; what may be used is said by the folders of the client and its settings.
    pub(super) fn new(roots: Roots, settings: InForce) -> Self {
        Library { open: Arc::default(), roots, settings }
    }

    /// Puts in an open sheet as it is now.
    pub(super) fn keep(&self, uri: &Url, text: Text) {
        let mut open = self.on_screens();
        if let Some(known) = open.get_mut(&normal(uri)) {
            known.text = text;
        } else {
            let real = uri.to_file_path().ok().and_then(|path| disk::real(&path).ok());
            open.insert(normal(uri), OnScreen { text, real });
        }
    }

    /// Takes out a sheet that was closed.
    pub(super) fn drop(&self, uri: &Url) {
        self.on_screens().remove(&normal(uri));
    }

    /// The files that sheets may use as things are now.
    pub(super) fn workspace(&self) -> Workspace {
        let (folders, settings) = (self.roots.folders(), self.settings.now());
        Workspace::new(
            folders.iter().map(PathBuf::as_path),
            settings.may_use.iter().map(PathBuf::as_path),
        )
    }

    fn on_screens(&self) -> MutexGuard<'_, HashMap<Url, OnScreen>> {
        self.open.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// The text of a file that is open, under this path or one that leads to it.
    fn on_screen(&self, path: &Path) -> Option<Text> {
        let open = self.on_screens();
        let by_name = || open.get(&Url::from_file_path(path).ok()?);
        let by_file = || open.values().find(|sheet| sheet.real.as_deref() == Some(path));
        by_name().or_else(by_file).map(|sheet| sheet.text.clone())
    }
}

impl Files for Library {
    fn admits(&self, from: &Path, file: &Path) -> bool {
        self.workspace().admits_beside(from, file)
    }

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

/// The library as it lends to one sheet. The folders are looked at only if the sheet uses any other.
struct Lending<'a> {
    library: &'a Library,
    workspace: OnceCell<Workspace>,
}

impl<'a> Lending<'a> {
    fn new(library: &'a Library) -> Self {
        Lending { library, workspace: OnceCell::new() }
    }
}

impl Lender for Lending<'_> {
    fn contents(&self, file: &Path) -> Result<Arc<Contents>, String> {
        let open = self.library.on_screen(file).map(|text| text.to_string());
        let text = open.map_or_else(|| disk::read(file), Ok)?;
        Ok(Arc::new(Contents::of(&text)))
    }

    fn workspace(&self) -> &Workspace {
        self.workspace.get_or_init(|| self.library.workspace())
    }
}

/// One sheet as a reader of others.
pub(super) struct Borrower {
    library: Library,
    /// Where it lies, if it lies anywhere.
    path: Option<PathBuf>,
    loans: Loans,
}

impl Borrower {
    /// The sheet at `uri`.
    pub(super) fn new(library: Library, uri: &Url) -> Self {
        Borrower { library, path: uri.to_file_path().ok(), loans: Loans::default() }
    }

    /// What a sheet borrows that is not judged yet.
    pub(super) fn begin(&mut self, sheet: &Unjudged) -> BTreeMap<String, Import> {
        self.loans.begin(sheet, self.path.as_deref(), &Lending::new(&self.library))
    }

    /// Brings what the sheet borrows in line with its `use` lines.
    pub(super) fn borrow(&mut self, sheet: &mut Sheet) {
        self.loans.settle(sheet, self.path.as_deref(), &Lending::new(&self.library));
    }

    /// Borrows anew what depends on a file that has changed; whether anything was judged again.
    pub(super) fn borrow_again(&mut self, sheet: &mut Sheet, other: &Url) -> bool {
        let Ok(path) = other.to_file_path() else { return false };
        if self.loans.is_empty() {
            return false;
        }
        let real = disk::real(&path).ok();
        self.renew(sheet, |files| {
            files.contains(&path) || real.as_ref().is_some_and(|real| files.contains(real))
        })
    }

    /// Borrows anew all that is borrowed.
    pub(super) fn borrow_all_again(&mut self, sheet: &mut Sheet) {
        self.renew(sheet, |_| true);
    }

    fn renew(&mut self, sheet: &mut Sheet, is_meant: impl Fn(&BTreeSet<PathBuf>) -> bool) -> bool {
        let lending = Lending::new(&self.library);
        self.loans.renew(sheet, self.path.as_deref(), &lending, is_meant)
    }
}

/// The place of a file that a path names, seen from a sheet.
pub(super) fn beside(sheet: &Url, path: &str) -> Option<Url> {
    let own = sheet.to_file_path().ok()?;
    Url::from_file_path(disk::plain(&own.parent()?.join(path))).ok()
}

/// The one way in which a file is addressed here; editors differ in what they escape.
pub(super) fn normal(uri: &Url) -> Url {
    uri.to_file_path().and_then(Url::from_file_path).unwrap_or_else(|()| uri.clone())
}

//! The other sheets from which a sheet takes cantus definitions: those that are open as they are
//! on screen, all others as they are on disk.
//!
//! It must not know what a definition is used for.

use std::collections::{BTreeSet, HashMap};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use bicinium_analysis::Sheet;
use bicinium_analysis::score::lower::{self, Definitions};
use bicinium_analysis::sheet::Import;
use bicinium_grammar::{SheetTree, ast};
use tower_lsp::lsp_types::Url;

use super::disk;
use super::text::Text;

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

    fn lend(&self, uri: &Url) -> Import {
        let open = self.shelf().get(uri).map(Text::to_string);
        let text = open.map_or_else(|| read(uri), Ok)?;
        Ok(definitions(&text))
    }
}

/// One sheet as a reader of others.
pub(super) struct Borrower {
    library: Library,
    uri: Url,
    lent: BTreeSet<String>,
}

impl Borrower {
    /// The sheet at `uri`.
    pub(super) fn new(library: Library, uri: Url) -> Self {
        Borrower { library, uri, lent: BTreeSet::new() }
    }

    /// Brings what the sheet borrows in line with its `use` lines.
    pub(super) fn borrow(&mut self, sheet: &mut Sheet) {
        let uses: BTreeSet<String> = sheet.uses().into_iter().collect();
        for path in self.lent.difference(&uses) {
            sheet.provide(path, Ok(Definitions::new()));
        }
        for path in uses.difference(&self.lent) {
            sheet.provide(path, self.import(path));
        }
        self.lent = uses;
    }

    /// Borrows anew what comes from a sheet that has changed; whether there is anything.
    pub(super) fn borrow_again(&self, sheet: &mut Sheet, other: &Url) -> bool {
        let other = normal(other);
        let paths = self.lent.iter().filter(|path| self.resolve(path).as_ref() == Some(&other));
        paths.map(|path| sheet.provide(path, self.import(path))).count() > 0
    }

    /// Starts over with a sheet that has borrowed nothing.
    pub(super) fn forget(&mut self) {
        self.lent.clear();
    }

    fn import(&self, path: &str) -> Import {
        let uri = self.resolve(path).ok_or("this sheet has no folder yet; save it first")?;
        self.library.lend(&uri)
    }

    /// The place that a path means, seen from this sheet.
    fn resolve(&self, path: &str) -> Option<Url> {
        let own = self.uri.to_file_path().ok()?;
        let beside = Url::from_file_path(own.parent()?.join(path)).ok()?;
        // Only reading an address resolves the dots in it.
        Url::parse(beside.as_str()).ok()
    }
}

/// The one way in which a file is addressed here; editors differ in what they escape.
fn normal(uri: &Url) -> Url {
    uri.to_file_path().and_then(Url::from_file_path).unwrap_or_else(|()| uri.clone())
}

fn read(uri: &Url) -> Result<String, String> {
    let path = uri.to_file_path().map_err(|()| "it is not a file".to_owned())?;
    disk::read(&path)
}

fn definitions(text: &str) -> Definitions {
    let sheet = SheetTree::parse(text);
    let defined = sheet.blocks().iter().filter_map(|block| match block.ast() {
        ast::Block::Cantus(cantus) => lower::cantus(&cantus, &mut Vec::new()),
        _ => None,
    });
    let mut definitions = Definitions::new();
    for defined in defined {
        definitions.entry(defined.name).or_insert(defined.notes);
    }
    definitions
}

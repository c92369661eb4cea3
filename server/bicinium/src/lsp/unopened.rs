//! Sheets that are in the folders of the client but not open: judged as they are on disk when somebody
//! asks about the whole workspace, and kept, so that only what has changed is judged again.
//!
//! It must not know what is told of them.

use std::collections::HashMap;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use bicinium_analysis::Sheet;
use bicinium_analysis::sheet::Unjudged;
use tower_lsp::lsp_types::Url;

use super::document::Judged;
use super::library::{Borrower, Library};
use super::rulebooks::Rulebooks;
use super::text::Text;
use crate::disk;

/// What is known of the sheets. Copies are the same.
#[derive(Clone)]
pub(super) struct Unopened {
    library: Library,
    rulebooks: Rulebooks,
    known: Arc<Mutex<HashMap<PathBuf, Known>>>,
}

struct Known {
    text: String,
    sheet: Sheet,
    borrower: Borrower,
}

impl Unopened {
    /// Nothing is known yet.
    pub(super) fn new(library: Library, rulebooks: Rulebooks) -> Self {
        Unopened { library, rulebooks, known: Arc::default() }
    }

    /// What is thought of the sheet in a file; `None` if it cannot be read.
    pub(super) fn judged(&self, path: &Path, uri: &Url) -> Option<Judged> {
        let text = disk::read(path).ok()?;
        let mut known = self.known.lock().unwrap_or_else(PoisonError::into_inner);
        let kept = known.remove(path).filter(|known| known.text == text);
        // A sheet that cannot be judged costs its own answer and no other.
        let renewed = catch_unwind(AssertUnwindSafe(|| self.renewed(kept, text, uri)));
        let sheet = renewed.ok()?;
        let snapshot = sheet.sheet.snapshot();
        let judged = Judged { text: Text::from(&*sheet.text), version: 0, snapshot };
        known.insert(path.to_owned(), sheet);
        Some(judged)
    }

    /// Forgets everything: what was set has changed.
    pub(super) fn forget(&self) {
        self.known.lock().unwrap_or_else(PoisonError::into_inner).clear();
    }

    fn renewed(&self, kept: Option<Known>, text: String, uri: &Url) -> Known {
        let Some(mut known) = kept else {
            let mut borrower = Borrower::new(self.library.clone(), uri);
            let sheet = Unjudged::new(&text);
            let imports = borrower.begin(&sheet);
            let books = self.rulebooks.lent(sheet.rulebooks(), uri);
            return Known { sheet: sheet.judge(imports, books), borrower, text };
        };
        known.borrower.borrow_all_again(&mut known.sheet);
        known.sheet.shelve(self.rulebooks.lent(known.sheet.rulebooks(), uri));
        known
    }
}

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
use super::sheets::{Closed, Written};

/// What is known of the sheets. Copies are the same.
#[derive(Clone)]
pub(super) struct Unopened {
    library: Library,
    rulebooks: Rulebooks,
    closed: Closed,
    known: Arc<Mutex<HashMap<PathBuf, Known>>>,
}

struct Known {
    written: Written,
    sheet: Sheet,
    borrower: Borrower,
}

impl Unopened {
    /// Nothing is known yet.
    pub(super) fn new(library: Library, rulebooks: Rulebooks) -> Self {
        Unopened { library, rulebooks, closed: Closed::default(), known: Arc::default() }
    }

    /// The sheets as they are written.
    pub(super) fn written(&self) -> Closed {
        self.closed.clone()
    }

    /// What is thought of the sheet in a file; `None` if it cannot be read.
    pub(super) fn judged(&self, path: &Path, uri: &Url) -> Option<Judged> {
        let written = self.closed.at(uri)?;
        let mut known = self.known.lock().unwrap_or_else(PoisonError::into_inner);
        let kept = known.remove(path).filter(|known| known.written.is_still(&written));
        // A sheet that cannot be judged costs its own answer and no other.
        let renewed = catch_unwind(AssertUnwindSafe(|| self.renewed(kept, written, uri)));
        let sheet = renewed.ok()?;
        let snapshot = sheet.sheet.snapshot();
        let judged = Judged { text: sheet.written.text.clone(), version: 0, snapshot };
        known.insert(path.to_owned(), sheet);
        Some(judged)
    }

    /// Forgets everything: what was set has changed.
    pub(super) fn forget(&self) {
        self.known.lock().unwrap_or_else(PoisonError::into_inner).clear();
    }

    fn renewed(&self, kept: Option<Known>, written: Written, uri: &Url) -> Known {
        let Some(mut known) = kept else {
            let mut borrower = Borrower::new(self.library.clone(), uri);
            let sheet = Unjudged::new(&written.text.to_string());
            let imports = borrower.begin(&sheet);
            let books = self.rulebooks.lent(sheet.rulebooks(), uri);
            return Known { sheet: sheet.judge(imports, books), borrower, written };
        };
        known.borrower.borrow_all_again(&mut known.sheet);
        known.sheet.shelve(self.rulebooks.lent(known.sheet.rulebooks(), uri));
        known
    }
}

//! The sheet in a file, with what it takes from the sheets and rulebooks around it. Knows nothing of when
//! files change.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use bicinium_analysis::sheet::Unjudged;
use bicinium_analysis::{Sheet, Shelf, Snapshot};

use crate::features::lines::differences;
use crate::library::{Loans, OnDisk};
use crate::schools::{Schools, candidates};
use crate::workspace::Workspace;

/// A sheet in a file, whose path is absolute.
pub(super) struct FileSheet {
    path: PathBuf,
    workspace: Workspace,
    text: String,
    sheet: Sheet,
    loans: Loans,
    schools: Schools,
    /// The files from which rulebooks come, or would come if they were there.
    rulebooks: BTreeSet<PathBuf>,
}

impl FileSheet {
    /// The sheet that a text is, with all that it takes from other files.
    pub(super) fn new(path: &Path, text: String, workspace: Workspace) -> Self {
        let unjudged = Unjudged::new(&text);
        let (mut loans, mut schools) = (Loans::default(), Schools::default());
        let lender = OnDisk::new(workspace.clone());
        let imports = loans.begin(&unjudged, Some(path), &lender);
        let (books, rulebooks) = shelf(&mut schools, &unjudged.rulebooks(), path, &lender);
        let sheet = unjudged.judge(imports, books);
        Self { path: path.to_owned(), workspace, text, sheet, loans, schools, rulebooks }
    }

    /// The sheet as it is now.
    pub(super) fn snapshot(&self) -> Arc<Snapshot> {
        self.sheet.snapshot()
    }

    /// Goes over to another text; whether it is another.
    pub(super) fn take(&mut self, text: String) -> bool {
        let differences = differences(&self.text, &text);
        for (range, insert) in differences.iter().rev() {
            self.sheet.edit(range.clone(), insert);
        }
        self.text = text;
        !differences.is_empty()
    }

    /// Takes from other files what the sheet asks for, and anew what lies in files that have changed;
    /// whether anything was judged again.
    pub(super) fn renew(&mut self, changed: &BTreeSet<PathBuf>) -> bool {
        let (own, lender) = (Some(&*self.path), OnDisk::new(self.workspace.clone()));
        let is_meant = |files: &BTreeSet<PathBuf>| !files.is_disjoint(changed);
        let lent = self.loans.renew(&mut self.sheet, own, &lender, is_meant);
        self.loans.settle(&mut self.sheet, own, &lender);
        let names = self.sheet.rulebooks();
        let (books, rulebooks) = shelf(&mut self.schools, &names, &self.path, &lender);
        self.rulebooks = rulebooks;
        lent | (self.sheet.shelve(books).judged > 0)
    }

    /// The files that matter: its own, and all from which it takes something.
    pub(super) fn files(&self) -> Vec<PathBuf> {
        let others = self.loans.files().chain(&self.rulebooks);
        others.chain([&self.path]).cloned().collect()
    }
}

/// The rulebooks of these names, and the files from which they come, or would come if they were there.
fn shelf(
    schools: &mut Schools,
    names: &BTreeSet<String>,
    sheet: &Path,
    files: &OnDisk,
) -> (Arc<Shelf>, BTreeSet<PathBuf>) {
    let found = schools.find(names, Some(sheet), files);
    let wanted = names.iter().flat_map(|name| candidates(name, sheet));
    (found.shelf, found.files.into_iter().chain(wanted).collect())
}

//! What sheets are marked with: the rulebooks, and the other sheets from which they take something. It
//! must not know what is found.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf, absolute};
use std::sync::Arc;

use bicinium_analysis::sheet::Unjudged;
use bicinium_analysis::{Rulebook, Sheet, Shelf};

use super::arguments::Reach;
use super::sources::Source;
use crate::library::{Loans, OnDisk};
use crate::schools::{Files, Found, Schools};
use crate::workspace::Workspace;

/// What sheets are marked with.
#[derive(Debug)]
pub(super) struct Desk {
    by: By,
    others: Arc<OnDisk>,
}

/// By which rulebooks sheets are marked.
#[derive(Debug)]
enum By {
    /// By those that they name.
    Theirs(Schools),
    /// By one, whatever they name.
    One(Arc<Rulebook>),
}

/// The workspace of a command: the current folder, the folders among the paths that are named, and what
/// is allowed beside them.
pub(super) fn workspace(reach: &Reach, named: &[PathBuf]) -> Workspace {
    let folders = named.iter().map(PathBuf::as_path).filter(|path| path.is_dir());
    let allowed = reach.may_use.iter().map(PathBuf::as_path);
    Workspace::new(folders.chain([Path::new(".")]), allowed)
}

impl Desk {
    /// Sheets are marked by the rulebooks that they name.
    pub(super) fn new(workspace: Workspace) -> Self {
        Self { by: By::Theirs(Schools::default()), others: Arc::new(OnDisk::new(workspace)) }
    }

    /// The same, but everything is marked by one rulebook.
    pub(super) fn bound_to(&self, rulebook: Arc<Rulebook>) -> Self {
        Self { by: By::One(rulebook), others: self.others.clone() }
    }

    /// Whether everything is marked by one rulebook.
    pub(super) fn is_bound(&self) -> bool {
        matches!(self.by, By::One(_))
    }

    /// The same for another worker, with no rulebook looked up yet.
    pub(super) fn afresh(&self) -> Self {
        let by = match &self.by {
            By::Theirs(_) => By::Theirs(Schools::default()),
            By::One(rulebook) => By::One(rulebook.clone()),
        };
        Self { by, others: self.others.clone() }
    }

    /// The files that sheets and rulebooks may take something from.
    pub(super) fn files(&self) -> &dyn Files {
        &*self.others
    }

    /// The sheet of a text, judged with what it takes from other sheets; and the files of the rulebooks
    /// that it is marked by.
    pub(super) fn judge(&mut self, text: &str, source: &Source) -> (Sheet, BTreeSet<PathBuf>) {
        let sheet = Unjudged::new(text);
        let imports = Loans::default().begin(&sheet, Some(source.path()), &*self.others);
        let Found { shelf, files } = self.by.find(&sheet, source, &self.others);
        (sheet.judge(imports, shelf), files)
    }
}

impl By {
    fn find(&mut self, sheet: &Unjudged, source: &Source, others: &OnDisk) -> Found {
        match self {
            Self::Theirs(schools) => {
                let path = absolute(source.path()).ok();
                schools.find(&sheet.rulebooks(), path.as_deref(), others)
            }
            Self::One(rulebook) => {
                let bound = Shelf::default().bound_to(rulebook.clone());
                Found { shelf: Arc::new(bound), files: BTreeSet::new() }
            }
        }
    }
}

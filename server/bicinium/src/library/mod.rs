//! What a sheet takes from others: the cantus definitions of the sheets that its `use` lines name,
//! and only those that stand in them; what they use in their turn is not followed, so that sheets
//! may use each other, and are told that they do. Where texts come from is decided by whoever asks.
//! It must not know any editor.

mod contents;
mod on_disk;
mod reached;
mod way_back;

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use bicinium_analysis::Sheet;
use bicinium_analysis::sheet::{Import, Lent, Unjudged};

use self::reached::reached;
use self::way_back::way_back;
use crate::workspace::Workspace;

pub use self::contents::Contents;
pub use self::on_disk::OnDisk;

/// Why a sheet that lies nowhere cannot use others, as the end of a sentence.
const NOWHERE: &str = "this sheet has no folder yet; save it first";

/// Whoever has other sheets at hand.
pub trait Lender {
    /// What the sheet in a file says to others, or why it cannot be had, as the end of a sentence.
    fn contents(&self, file: &Path) -> Result<Arc<Contents>, String>;

    /// The files that sheets may use.
    fn workspace(&self) -> &Workspace;
}

/// What one sheet has taken from others: for each path the files on which that depends.
#[derive(Debug, Default)]
pub struct Loans {
    files: BTreeMap<String, BTreeSet<PathBuf>>,
}

impl Loans {
    /// Takes what a sheet asks for that is not judged yet. `own` is its path; `None` if it lies nowhere.
    pub fn begin(
        &mut self,
        sheet: &Unjudged,
        own: Option<&Path>,
        lender: &dyn Lender,
    ) -> BTreeMap<String, Import> {
        self.files.clear();
        let take = |path: String| {
            let import = self.take(&path, own, lender);
            (path, import)
        };
        sheet.uses().into_iter().map(take).collect()
    }

    /// Brings what the sheet takes in line with its `use` lines. `own` is its path; `None` if it lies
    /// nowhere.
    pub fn settle(&mut self, sheet: &mut Sheet, own: Option<&Path>, lender: &dyn Lender) {
        let uses = sheet.uses();
        self.files.retain(|path, _| {
            let is_used = uses.contains(path);
            if !is_used {
                sheet.provide(path, Ok(Lent::default()));
            }
            is_used
        });
        let new: Vec<_> = uses.into_iter().filter(|path| !self.files.contains_key(path)).collect();
        for path in new {
            self.lend(sheet, &path, own, lender);
        }
    }

    /// Takes anew what depends on files that are meant; whether anything was judged again.
    pub fn renew(
        &mut self,
        sheet: &mut Sheet,
        own: Option<&Path>,
        lender: &dyn Lender,
        is_meant: impl Fn(&BTreeSet<PathBuf>) -> bool,
    ) -> bool {
        let meant = self.files.iter().filter(|(_, files)| is_meant(files));
        let meant: Vec<_> = meant.map(|(path, _)| path.clone()).collect();
        meant.iter().map(|path| self.lend(sheet, path, own, lender)).sum::<usize>() > 0
    }

    /// The files on which it depends what is taken.
    pub fn files(&self) -> impl Iterator<Item = &PathBuf> {
        self.files.values().flatten()
    }

    /// Whether nothing is taken.
    pub fn is_empty(&self) -> bool {
        self.files.is_empty()
    }

    /// Lends what stands in the sheet at a path, and returns how many blocks were judged again for it.
    fn lend(
        &mut self,
        sheet: &mut Sheet,
        path: &str,
        own: Option<&Path>,
        lender: &dyn Lender,
    ) -> usize {
        let import = self.take(path, own, lender);
        sheet.provide(path, import).judged
    }

    /// What comes from a path; the files on which that depends are kept.
    fn take(&mut self, path: &str, own: Option<&Path>, lender: &dyn Lender) -> Import {
        let mut files = BTreeSet::new();
        let import = match own {
            Some(own) => import(own, path, lender, &mut files),
            None => Err(NOWHERE.to_owned()),
        };
        self.files.insert(path.to_owned(), files);
        import
    }
}

/// The file to which a path leads that is named in the sheet at `own`, or why that sheet may not use
/// it, as the end of a sentence.
pub fn file(own: &Path, path: &str, workspace: &Workspace) -> Result<PathBuf, String> {
    reached(own, path, workspace, &mut BTreeSet::new())
}

/// What the sheet at a path lends to the one at `own`. The files on which that depends are added.
fn import(own: &Path, path: &str, lender: &dyn Lender, files: &mut BTreeSet<PathBuf>) -> Import {
    let file = reached(own, path, lender.workspace(), files)?;
    let contents = lender.contents(&file)?;
    let definitions = contents.definitions.clone();
    let leads_back = way_back(own, file, contents, lender, files);
    Ok(Lent { definitions, leads_back })
}

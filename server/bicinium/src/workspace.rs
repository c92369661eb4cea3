//! Which files a sheet may use, and name as rulebooks by their path: those of its workspace, and those that are allowed beside it. A sheet
//! is not to be trusted and a link may lead anywhere, so only real paths are compared. It must not
//! know what the files say.

use std::path::{Path, PathBuf};

/// What marks the uppermost folder of a checkout.
const CHECKOUTS: [&str; 4] = [".git", ".hg", ".jj", ".svn"];

/// Why a sheet may not use a file, as the end of a sentence.
pub const OUTSIDE: &str = "it lies outside the workspace; move it into the workspace, or allow its \
     folder (--may-use FOLDER on the command line, the setting mayUse in an editor)";

/// The folders that somebody works in, and those that are allowed beside them.
#[derive(Clone, Debug, Default)]
pub struct Workspace {
    folders: Vec<PathBuf>,
    allowed: Vec<PathBuf>,
}

impl Workspace {
    /// The workspace of these folders; those that are not there count for nothing.
    pub fn new<'p>(
        folders: impl IntoIterator<Item = &'p Path>,
        allowed: impl IntoIterator<Item = &'p Path>,
    ) -> Self {
        Self { folders: real(folders), allowed: real(allowed) }
    }

    /// Whether the sheet or rulebook at `own` may take something from a file, wherever links lead.
    pub fn admits_beside(&self, own: &Path, file: &Path) -> bool {
        let folder = own.parent().and_then(|folder| std::fs::canonicalize(folder).ok());
        let file = std::fs::canonicalize(file).ok();
        folder.zip(file).is_some_and(|(folder, file)| self.admits(&folder, &file))
    }

    /// Whether a sheet in the folder `from` may use a file. Both are real paths.
    ///
    /// It may if the file lies in that folder, in the checkout that holds it, in a folder that is
    /// allowed, or in any folder of the workspace if `from` does.
    pub fn admits(&self, from: &Path, file: &Path) -> bool {
        let hold = |folders: &[PathBuf], path: &Path| folders.iter().any(|it| path.starts_with(it));
        file.starts_with(from)
            || hold(&self.allowed, file)
            || (hold(&self.folders, from) && hold(&self.folders, file))
            || checkout(from).is_some_and(|folder| file.starts_with(folder))
    }
}

fn real<'p>(folders: impl IntoIterator<Item = &'p Path>) -> Vec<PathBuf> {
    folders.into_iter().filter_map(|folder| std::fs::canonicalize(folder).ok()).collect()
}

/// The uppermost folder of the nearest checkout that holds a folder.
fn checkout(folder: &Path) -> Option<&Path> {
    folder.ancestors().find(|folder| CHECKOUTS.iter().any(|mark| folder.join(mark).exists()))
}

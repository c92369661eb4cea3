//! Sheets in folders: found with everything below, in the order of their names; hidden ones and those
//! that a .gitignore file leaves out are passed over. It must not know what becomes of them.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};

use ignore::WalkBuilder;

/// The ending of the names of sheets.
const EXTENSION: &str = "bicinium";

/// The sheets below a folder, and in words what could not be searched.
pub fn sheets(folder: &Path) -> impl Iterator<Item = Result<PathBuf, String>> {
    let walk = WalkBuilder::new(folder).require_git(false).sort_by_file_name(OsStr::cmp).build();
    walk.filter_map(|entry| match entry {
        Ok(entry) => is_sheet(entry.path()).then(|| Ok(entry.into_path())),
        Err(error) => Some(Err(error.to_string())),
    })
}

/// Whether there is a sheet, or a link that was to lead to one: that is to be told, not passed over.
fn is_sheet(path: &Path) -> bool {
    let is_lost = || path.is_symlink() && !path.exists();
    path.extension() == Some(OsStr::new(EXTENSION)) && (path.is_file() || is_lost())
}

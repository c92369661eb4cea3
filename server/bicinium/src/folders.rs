//! Sheets in folders: found with everything below, in the order of their names; hidden ones and those
//! that a .gitignore file leaves out are passed over. It must not know what becomes of them.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};

use ignore::WalkBuilder;

use crate::disk;
use crate::workspace::Workspace;

/// The ending of the names of sheets.
const EXTENSION: &str = "bicinium";
/// How much of a folder is looked at when its sheets are offered.
const MOST: usize = 2_000;

/// The sheets below a folder, and in words what could not be searched.
pub fn sheets(folder: &Path) -> impl Iterator<Item = Result<PathBuf, String>> {
    let walk = WalkBuilder::new(folder).require_git(false).sort_by_file_name(OsStr::cmp).build();
    walk.filter_map(|entry| match entry {
        Ok(entry) => is_sheet(entry.path()).then(|| Ok(entry.into_path())),
        Err(error) => Some(Err(error.to_string())),
    })
}

/// What the sheet at `own` may use in a folder that is named as seen from it: the sheets and, with a
/// stroke behind their names, the folders, in the order of their names. Hidden ones are passed over, and
/// so are those whose names cannot stand in a sheet.
pub fn beside(own: &Path, folder: &str, workspace: &Workspace) -> Vec<String> {
    let home = own.parent().unwrap_or(Path::new(""));
    let (folder, Ok(from)) = (home.join(folder), disk::real(home)) else { return Vec::new() };
    let itself = disk::real(own).ok();
    let may_use = |path: &Path| {
        let real = std::fs::canonicalize(path).ok().filter(|real| itself.as_ref() != Some(real));
        real.is_some_and(|real| workspace.admits(&from, &real))
    };
    if !may_use(&folder) {
        return Vec::new();
    }
    let entries = std::fs::read_dir(&folder).into_iter().flatten().take(MOST).flatten();
    let names = entries.filter_map(|entry| entry.file_name().into_string().ok());
    let names = names.filter(|name| !name.starts_with('.') && !name.contains(['"', '\n', '\r']));
    let mut found: Vec<_> = names
        .filter_map(|name| {
            let path = folder.join(&name);
            let written = if path.is_dir() { format!("{name}/") } else { name };
            ((path.is_dir() || is_sheet(&path)) && may_use(&path)).then_some(written)
        })
        .collect();
    found.sort();
    found.extend(may_use(&folder.join("..")).then(|| "../".to_owned()));
    found
}

/// Whether there is a sheet, or a link that was to lead to one: that is to be told, not passed over.
fn is_sheet(path: &Path) -> bool {
    let is_lost = || path.is_symlink() && !path.exists();
    path.extension() == Some(OsStr::new(EXTENSION)) && (path.is_file() || is_lost())
}

//! The pages of the rules as a folder of HTML files: `bicinium rules --pages`. Files that were made
//! here before are made anew; others are left alone unless the person insists. It must not know what
//! the pages say.

mod frame;
mod index;
mod page;
mod sheet;

use std::fs::{self, File};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

use bicinium_analysis::Shelf;
use bicinium_analysis::rules;

use crate::cli::Outcome;
use crate::cli::output::Output;
use crate::cli::words::{count, list, shown};
use crate::disk;

/// What becomes of files in the folder that were not made here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Others {
    /// They stay, and nothing is written.
    Kept,
    /// They are replaced.
    Replaced,
}

/// A file that is going to be written.
struct Leaf {
    path: PathBuf,
    text: String,
}

/// Writes a page for each rule and an index into a folder, which is made if it is not there.
pub(super) fn write(
    folder: &Path,
    others: Others,
    shelf: &Shelf,
    output: &mut Output,
) -> io::Result<Outcome> {
    let leaves = leaves(folder, shelf);
    let foreign: Vec<_> = leaves.iter().filter(|leaf| is_foreign(&leaf.path)).collect();
    if others == Others::Kept && !foreign.is_empty() {
        output.complain(&refusal(&foreign));
        return Ok(Outcome::Failed);
    }
    if let Err((path, error)) = put_all(folder, &leaves) {
        let reason = disk::reason(&error);
        output.complain(&format!("{} cannot be written: {reason}.", path.display()));
        return Ok(Outcome::Failed);
    }
    let pages = count(rules::all().count(), "page", "pages");
    let index = shown(&folder.join(frame::INDEX).display().to_string());
    output.line(&format!("{pages} written; begin with {index}."))?;
    Ok(Outcome::Clean)
}

fn leaves(folder: &Path, shelf: &Shelf) -> Vec<Leaf> {
    let leaf = |name: &str, text| Leaf { path: folder.join(name), text };
    let pages = rules::all()
        .map(|entry| leaf(&frame::file_name(entry), page::html(entry, shelf).into_string()));
    std::iter::once(leaf(frame::INDEX, index::html(shelf).into_string())).chain(pages).collect()
}

/// Whether something stands at a path that was not made here.
fn is_foreign(path: &Path) -> bool {
    path.symlink_metadata().is_ok()
        && !disk::read(path).is_ok_and(|text| text.contains(frame::SIGNATURE))
}

fn refusal(foreign: &[&Leaf]) -> String {
    let names: Vec<_> = foreign.iter().map(|leaf| leaf.path.display().to_string()).collect();
    let (are, were) = if names.len() == 1 { ("is", "was") } else { ("are", "were") };
    format!(
        "{} {are} there already and {were} not made by this command. Nothing has been written; \
         --force replaces what is there.",
        list(&names)
    )
}

fn put_all<'l>(folder: &'l Path, leaves: &'l [Leaf]) -> Result<(), (&'l Path, io::Error)> {
    fs::create_dir_all(folder).map_err(|error| (folder, error))?;
    leaves.iter().try_for_each(|leaf| {
        put(&leaf.path, &leaf.text).map_err(|error| (leaf.path.as_path(), error))
    })
}

fn put(path: &Path, text: &str) -> io::Result<()> {
    match File::create_new(path) {
        Ok(mut file) => file.write_all(text.as_bytes()),
        Err(error) if error.kind() == ErrorKind::AlreadyExists => disk::write(path, text),
        Err(error) => Err(error),
    }
}

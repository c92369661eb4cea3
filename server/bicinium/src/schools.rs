//! The rulebooks that schools write for themselves: where the file of a name is found, and what a
//! sheet gets on its shelf. Where files are read is decided by whoever asks. It must not know any
//! editor.

use std::collections::BTreeSet;
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;

use bicinium_analysis::Shelf;
use bicinium_analysis::rulebook::{Collection, FILE_END, Held, Source, is_path, missing};

use crate::disk;
use crate::workspace::OUTSIDE;

/// How many files of a folder are looked at to see which rulebooks there are.
const MOST: usize = 2_000;

/// Where files are looked for, and which of them may be taken.
pub trait Files {
    /// Whether a sheet or a rulebook may name this file by its path.
    fn admits(&self, from: &Path, file: &Path) -> bool;

    /// Whether there is such a file.
    fn is_there(&self, path: &Path) -> bool;

    /// Its text, or why it cannot be had, as the end of a sentence.
    fn read(&self, path: &Path) -> Result<String, String>;
}

/// Files as they are on disk, any of them: for those that a person names.
#[derive(Clone, Copy, Debug)]
pub struct Disk;

impl Files for Disk {
    fn admits(&self, _: &Path, _: &Path) -> bool {
        true
    }

    fn is_there(&self, path: &Path) -> bool {
        path.is_file()
    }

    fn read(&self, path: &Path) -> Result<String, String> {
        disk::read_within(path, disk::LONGEST_RULEBOOK)
    }
}

/// All rulebooks that were asked for.
#[derive(Debug, Default)]
pub struct Schools {
    collection: Collection,
}

/// What was found for a sheet.
#[derive(Debug)]
pub struct Found {
    /// The rulebooks that the sheet may name.
    pub shelf: Arc<Shelf>,
    /// The files that they depend on.
    pub files: BTreeSet<PathBuf>,
}

impl Schools {
    /// What these names and paths mean in a sheet whose path is `sheet`; `None` if it lies nowhere.
    pub fn find(
        &mut self,
        names: &BTreeSet<String>,
        sheet: Option<&Path>,
        files: &dyn Files,
    ) -> Found {
        let mut books = Shelf::default();
        let mut used = BTreeSet::new();
        for name in names {
            let file = sheet.and_then(|sheet| find(name, sheet, files));
            if let Some(file) = &file {
                used.extend(self.look_up(file, files));
            }
            if Shelf::default().get(name).is_none() {
                let is_elsewhere = || sheet.is_some_and(|sheet| is_elsewhere(name, sheet, files));
                let reason = || if is_elsewhere() { OUTSIDE.to_owned() } else { missing(name) };
                books.put(name, self.found(sheet, file.as_deref(), reason));
            }
        }
        Found { shelf: Arc::new(books), files: used }
    }

    /// Brings the rulebook in a file up to date, and returns the files that it depends on, itself
    /// first.
    pub fn look_up(&mut self, file: &Path, files: &dyn Files) -> Vec<PathBuf> {
        self.collection.look_up(file, &Folders(files))
    }

    /// What is known of the rulebook in a file that was looked up.
    pub fn held(&self, file: &Path) -> Option<&Held> {
        self.collection.held(file)
    }

    fn found(
        &self,
        sheet: Option<&Path>,
        file: Option<&Path>,
        reason: impl Fn() -> String,
    ) -> Result<Arc<bicinium_analysis::Rulebook>, String> {
        if sheet.is_none() {
            return Err("this sheet has no folder yet; save it first".to_owned());
        }
        let file = file.ok_or_else(reason)?;
        let in_force = self.held(file).and_then(|held| held.in_force.clone());
        let own = file.file_name().unwrap_or_default().to_string_lossy();
        in_force.ok_or_else(|| format!("something is wrong in its file {own}"))
    }
}

/// The file that a name or a path of a rulebook means, seen from another file: for a name the
/// nearest in its folder and those above. A path may lead only where a `use` line may, for what is wrong in a file
/// is shown with its text.
pub fn find(name: &str, from: &Path, files: &dyn Files) -> Option<PathBuf> {
    let file = candidates(name, from).into_iter().find(|path| files.is_there(path));
    file.filter(|file| !is_path(name) || files.admits(from, file))
}

/// Whether a path leads to a file that may not be taken.
fn is_elsewhere(name: &str, from: &Path, files: &dyn Files) -> bool {
    is_path(name)
        && candidates(name, from)
            .iter()
            .any(|file| files.is_there(file) && !files.admits(from, file))
}

/// The files that it may mean, the nearest first.
pub fn candidates(name: &str, from: &Path) -> Vec<PathBuf> {
    if is_path(name) {
        return from.parent().map(|folder| disk::plain(&folder.join(name))).into_iter().collect();
    }
    let mut parts = Path::new(name).components();
    let (Some(Component::Normal(_)), None) = (parts.next(), parts.next()) else {
        return Vec::new();
    };
    let folders = from.ancestors().skip(1);
    folders.map(|folder| folder.join(format!("{name}{FILE_END}"))).collect()
}

/// The names of the rulebooks that a sheet may ask for: those in its folder and in the ones above.
pub fn nearby(sheet: &Path) -> BTreeSet<String> {
    let folders = sheet.ancestors().skip(1);
    let entries = folders.filter_map(|folder| std::fs::read_dir(folder).ok());
    let entries = entries.flat_map(|entries| entries.take(MOST).flatten());
    let names = entries.filter_map(|entry| {
        let name = entry.file_name().into_string().ok()?;
        name.strip_suffix(FILE_END).map(str::to_owned)
    });
    names.filter(|name| !name.is_empty()).collect()
}

struct Folders<'f>(&'f dyn Files);

impl Source for Folders<'_> {
    fn find(&self, name: &str, from: &Path) -> Option<PathBuf> {
        find(name, from, self.0)
    }

    fn read(&self, path: &Path) -> Result<String, String> {
        self.0.read(path)
    }
}

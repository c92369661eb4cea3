//! A file with a sheet, and the files that matter to it: which of them have changed since they were last
//! looked at. Knows no music.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use super::sheet::FileSheet;
use crate::disk;
use crate::view::edition::Edition;
use crate::workspace::Workspace;

/// A file that is followed.
pub(super) struct Followed {
    path: PathBuf,
    workspace: Workspace,
    /// The sheet in it; or why it cannot be read.
    sheet: Result<FileSheet, String>,
    seen: BTreeMap<PathBuf, Trace>,
}

/// What was seen of a file.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Trace {
    /// Nothing yet.
    Unseen,
    /// It is not there.
    Missing,
    /// When it was written, and how long it is.
    Written(Option<SystemTime>, u64),
}

impl Trace {
    fn of(path: &Path) -> Self {
        let about = std::fs::metadata(path);
        about.map_or(Self::Missing, |about| Self::Written(about.modified().ok(), about.len()))
    }
}

impl Followed {
    /// A file, read for the first time.
    pub(super) fn new(path: &Path, workspace: Workspace) -> Self {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        let seen = BTreeMap::from([(path.clone(), Trace::Unseen)]);
        let mut followed = Self { path, workspace, sheet: Err(String::new()), seen };
        followed.renew();
        followed
    }

    /// The sheet as it was last read.
    pub(super) fn edition(&self, number: u64) -> Edition {
        let name = self.path.file_name().map(|name| name.to_string_lossy().into_owned());
        let sheet = self.sheet.as_ref().map(FileSheet::snapshot).map_err(Clone::clone);
        Edition { number, name: name.unwrap_or_default(), sheet }
    }

    /// Whether any of the files is not as it was last seen.
    pub(super) fn has_changed(&self) -> bool {
        self.seen.iter().any(|(path, seen)| Trace::of(path) != *seen)
    }

    /// Brings the sheet in line with the files; whether there is anything new.
    pub(super) fn renew(&mut self) -> bool {
        // Seen before anything is read, so that what changes in between is seen the next time.
        let now: BTreeMap<_, _> =
            self.seen.keys().map(|path| (path.clone(), Trace::of(path))).collect();
        let changed = now.iter().filter(|(path, trace)| self.seen.get(*path) != Some(trace));
        let changed: BTreeSet<_> = changed.map(|(path, _)| path.clone()).collect();
        let is_own = changed.contains(&self.path) && self.read();
        let (is_lent, files) = match &mut self.sheet {
            Ok(sheet) => (sheet.renew(&changed), sheet.files()),
            Err(_) => (false, vec![self.path.clone()]),
        };
        let seen = |path: PathBuf| {
            let seen = now.get(&path).copied().unwrap_or(Trace::Unseen);
            (path, seen)
        };
        self.seen = files.into_iter().map(seen).collect();
        is_own | is_lent
    }

    /// Takes over what is in the file; whether it is anything else than before.
    fn read(&mut self) -> bool {
        match (disk::read(&self.path), &mut self.sheet) {
            (Ok(text), Ok(sheet)) => sheet.take(text),
            (Err(reason), Err(known)) if reason == *known => false,
            (Ok(text), sheet) => {
                *sheet = Ok(FileSheet::new(&self.path, text, self.workspace.clone()));
                true
            }
            (Err(reason), sheet) => {
                *sheet = Err(reason);
                true
            }
        }
    }
}

//! The sheets that are meant by the paths of a command line. It must not know what is done with
//! them.

use std::path::{Path, PathBuf};

use crate::disk;
use crate::folders;

/// Where a sheet comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Source {
    /// A file.
    File(PathBuf),
    /// Standard input.
    Input,
}

impl Source {
    /// The sheet at a path; `-` stands for standard input.
    pub(super) fn at(path: &Path) -> Self {
        if path == Path::new("-") { Self::Input } else { Self::File(path.to_owned()) }
    }

    /// The name it goes by: its path, or `-`.
    pub(super) fn name(&self) -> String {
        self.path().display().to_string()
    }

    /// Its path, or `-`.
    pub(super) fn path(&self) -> &Path {
        match self {
            Self::File(path) => path,
            Self::Input => Path::new("-"),
        }
    }

    /// The text, or what has to be said about it.
    pub(super) fn read(&self) -> Result<String, String> {
        self.text().map_err(|reason| match self {
            Self::File(_) => format!("{} cannot be read: {reason}.", self.name()),
            Self::Input => format!("Standard input cannot be read as a sheet: {reason}."),
        })
    }

    /// The text, or why it cannot be had, as the end of a sentence.
    pub(super) fn text(&self) -> Result<String, String> {
        match self {
            Self::File(path) => disk::read_named(path),
            Self::Input => disk::read_all(std::io::stdin()),
        }
    }
}

/// What was found under some paths.
#[derive(Debug, Default, PartialEq, Eq)]
pub(super) struct Found {
    /// The sheets, each once, in the order of the paths and by name within a folder.
    pub(super) sources: Vec<Source>,
    /// What has to be said about paths that lead nowhere.
    pub(super) complaints: Vec<String>,
}

/// Finds the sheets that are meant: those that are named, and those in folders that are named; in
/// the current folder if nothing is.
pub(super) fn find(paths: &[PathBuf]) -> Found {
    let mut found = Found::default();
    if paths.is_empty() {
        found.search(Path::new("."));
    }
    for path in paths {
        found.take(path);
    }
    found
}

impl Found {
    fn take(&mut self, path: &Path) {
        if path.is_dir() {
            self.search(path);
        } else {
            self.add(Source::at(path));
        }
    }

    fn search(&mut self, folder: &Path) {
        for sheet in folders::sheets(folder) {
            match sheet {
                Ok(path) => self.add(file(&path)),
                Err(error) => {
                    self.complaints.push(format!("A folder cannot be searched: {error}."));
                }
            }
        }
    }

    fn add(&mut self, source: Source) {
        if !self.sources.contains(&source) {
            self.sources.push(source);
        }
    }
}

/// A file that was found, without the dot of the current folder.
fn file(path: &Path) -> Source {
    Source::File(path.strip_prefix(".").unwrap_or(path).to_owned())
}

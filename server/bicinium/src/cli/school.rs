//! The rulebook that a person names on the command line. It must not know what it decides.

use std::path::{Path, PathBuf, absolute};
use std::sync::Arc;

use bicinium_analysis::rulebook::FILE_END;
use bicinium_analysis::{Rulebook, Shelf};

use super::broken::Broken;
use crate::schools::{self, Disk, Schools};

/// Why a rulebook cannot be had.
#[derive(Debug)]
pub(super) struct Refused {
    /// What has to be said about it.
    pub(super) complaint: String,
    /// What is wrong in its file and in those that it extends.
    pub(super) broken: Vec<Broken>,
}

/// The rulebook of a name, or that in a file.
pub(super) fn named(name: &str) -> Result<Arc<Rulebook>, Refused> {
    let built_in = Shelf::default().get(name).cloned();
    built_in.map_or_else(|| read(name), Ok)
}

fn read(name: &str) -> Result<Arc<Rulebook>, Refused> {
    let Some(file) = file(name) else {
        return Err(Refused { complaint: unknown(name), broken: Vec::new() });
    };
    let mut schools = Schools::default();
    let files = schools.look_up(&file, &Disk);
    let held = schools.held(&file).and_then(|held| held.in_force.clone());
    held.ok_or_else(|| Refused {
        complaint: format!("The rulebook {name} cannot be used: something is wrong in it."),
        broken: Broken::among(&schools, &files),
    })
}

fn unknown(name: &str) -> String {
    let names: Vec<_> = Shelf::default().names().map(ToOwned::to_owned).collect();
    let names = super::words::list(&names);
    format!(
        "There is no rulebook {name}. Built in are {names}; any other is a file {name}{FILE_END} \
         in this folder or one above, or is named by the path of its file."
    )
}

/// The file that is meant by a path, or else by a name.
fn file(name: &str) -> Option<PathBuf> {
    let path = absolute(name).ok()?;
    if path.exists() && !path.is_dir() {
        return Some(path);
    }
    // Seen from a file in the current folder, whatever it may be called.
    schools::find(name, &absolute(Path::new("-")).ok()?, &Disk)
}

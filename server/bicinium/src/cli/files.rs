//! Files that are written for a person who names them; one that is there already is replaced only if
//! that is wished. It must not know what is written.

use std::io;
use std::path::Path;

use crate::disk;

/// What becomes of a file that is there already.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Existing {
    /// It stays, and nothing is written.
    Kept,
    /// It is replaced.
    Replaced,
}

/// Writes a file, whole or not at all, or says in words why not.
pub(super) fn put(path: &Path, bytes: &[u8], existing: Existing) -> Result<(), String> {
    let done = match existing {
        Existing::Replaced if path.exists() => disk::write(path, bytes),
        _ => disk::create(path, bytes),
    };
    let name = path.display();
    done.map_err(|error| match error.kind() {
        io::ErrorKind::AlreadyExists => {
            format!(
                "{name} is there already and is not replaced; name another file, or add --force."
            )
        }
        io::ErrorKind::NotFound => format!("{name} cannot be written: there is no such folder."),
        _ => format!("{name} cannot be written: {}.", disk::reason(&error)),
    })
}

//! Texts on disk: read for sheets that take something from them, and written whole or not at all.
//!
//! Only what is a file, and no longer than anybody writes one, is read for others: a path may lead to
//! a device that never ends or to the very pipe on which an editor speaks. It must not know what the
//! texts say.

use std::io::{Error, ErrorKind, Write};
use std::path::Path;

/// The longest sheet that is read, in bytes.
const LONGEST_SHEET: u64 = 16 << 20;
/// The longest rulebook that is read, in bytes.
pub const LONGEST_RULEBOOK: u64 = 256 << 10;

/// The text of a sheet, or why it cannot be had, as the end of a sentence.
pub fn read(path: &Path) -> Result<String, String> {
    read_within(path, LONGEST_SHEET)
}

/// A text of at most so many bytes, or why it cannot be had, as the end of a sentence.
pub fn read_within(path: &Path, longest: u64) -> Result<String, String> {
    let about = std::fs::metadata(path).map_err(|error| reason(&error))?;
    if !about.is_file() {
        return Err("it is not a file".to_owned());
    }
    if about.len() > longest {
        return Err(too_long(longest));
    }
    std::fs::read_to_string(path).map_err(|error| reason(&error))
}

/// Why a text is not read that has more bytes than may be, as the end of a sentence.
pub fn too_long(longest: u64) -> String {
    format!("it is too long; it may have {} kB", longest >> 10)
}

/// Puts a text in the place of a file, at once: whoever looks sees the old text or the new one. The
/// file keeps its permissions, and one that may not be written is left alone.
pub fn write(path: &Path, text: &str) -> Result<(), Error> {
    let path = std::fs::canonicalize(path)?;
    let permissions = std::fs::metadata(&path)?.permissions();
    if permissions.readonly() {
        return Err(ErrorKind::PermissionDenied.into());
    }
    let folder = path.parent().unwrap_or(Path::new("."));
    let mut beside = tempfile::NamedTempFile::new_in(folder)?;
    beside.write_all(text.as_bytes())?;
    beside.as_file().set_permissions(permissions)?;
    beside.persist(&path)?;
    Ok(())
}

/// Why a file cannot be had, as the end of a sentence.
pub fn reason(error: &Error) -> String {
    let reason = match error.kind() {
        ErrorKind::NotFound => "there is no such file",
        ErrorKind::PermissionDenied => "it is protected",
        ErrorKind::InvalidData => "it is not plain text",
        _ => "it cannot be opened",
    };
    reason.to_owned()
}

//! Sheets on disk: read for others that take something from them, and written whole or not at all.
//!
//! Only what is a file, and no longer than anybody writes a sheet, is read for others: a path may lead
//! to a device that never ends or to the very pipe on which an editor speaks. It must not know what a
//! sheet is.

use std::io::{Error, ErrorKind, Write};
use std::path::Path;

/// The longest sheet that is read, in bytes.
const LONGEST: u64 = 16 << 20;

/// The text of a sheet, or why it cannot be had, as the end of a sentence.
pub fn read(path: &Path) -> Result<String, String> {
    let about = std::fs::metadata(path).map_err(|error| reason(&error))?;
    if !about.is_file() {
        return Err("it is not a file".to_owned());
    }
    if about.len() > LONGEST {
        return Err(format!("it is too long; a sheet may have {} MB", LONGEST >> 20));
    }
    std::fs::read_to_string(path).map_err(|error| reason(&error))
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

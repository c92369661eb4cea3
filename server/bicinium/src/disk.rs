//! Sheets on disk, read for others that take something from them.
//!
//! Only what is a file, and no longer than anybody writes a sheet, is read at all: a path may lead
//! to a device that never ends or to the very pipe on which an editor speaks. It must not know what a
//! sheet is.

use std::io::{Error, ErrorKind};
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

fn reason(error: &Error) -> String {
    let reason = match error.kind() {
        ErrorKind::NotFound => "there is no such file",
        ErrorKind::InvalidData => "it is not plain text",
        _ => "it cannot be opened",
    };
    reason.to_owned()
}

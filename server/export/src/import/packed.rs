//! Packed scores: which file in the archive is the score. Knows archives and their bounds, no music.

use std::io::{Cursor, Read};

use zip::ZipArchive;

use super::{LONGEST, Refusal, document};

/// The file that tells which one is the score.
const CONTAINER: &str = "META-INF/container.xml";

/// Whether bytes are an archive.
pub(super) fn is_packed(bytes: &[u8]) -> bool {
    bytes.starts_with(b"PK\x03\x04")
}

/// The score in an archive.
pub(super) fn score(bytes: &[u8]) -> Result<Vec<u8>, Refusal> {
    let mut archive = ZipArchive::new(Cursor::new(bytes)).map_err(|_| Refusal::NothingPacked)?;
    let container = unpacked(&mut archive, CONTAINER)?;
    let container = std::str::from_utf8(&container).map_err(|_| Refusal::NoText)?;
    let container = document::read(container)?;
    let files = container.get("rootfiles").and_then(|files| files.get("rootfile"));
    let path = files.and_then(|file| file.attribute("full-path")).ok_or(Refusal::NothingPacked)?;
    unpacked(&mut archive, path)
}

/// A file of an archive, as long as a score may be.
fn unpacked(archive: &mut ZipArchive<Cursor<&[u8]>>, path: &str) -> Result<Vec<u8>, Refusal> {
    let file = archive.by_name(path).map_err(|_| Refusal::NothingPacked)?;
    let mut bytes = Vec::new();
    file.take(LONGEST + 1).read_to_end(&mut bytes).map_err(|_| Refusal::NothingPacked)?;
    if bytes.len() as u64 > LONGEST { Err(Refusal::TooLong) } else { Ok(bytes) }
}

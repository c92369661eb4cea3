//! Whatever is taken for a score of another program becomes music or is refused in words.

use bicinium_export::import;

/// Reads bytes as a score.
pub fn attempt(bytes: &[u8]) {
    if bytes.len() > 20_000 {
        return;
    }
    match import::read(bytes) {
        Ok(import) => drop(import),
        Err(refusal) => assert!(!refusal.to_string().is_empty()),
    }
}

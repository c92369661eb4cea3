//! Every text is lowered, heard and judged, under each built-in rulebook.

use std::sync::Arc;

use bicinium_analysis::{Sheet, Shelf};

/// Judges a text.
pub fn attempt(text: &str) {
    if text.len() > 4_000 {
        return;
    }
    let shelf = Arc::new(Shelf::default());
    for head in ["", "rulebook modal\n", "rulebook tonal\n"] {
        let sheet = Sheet::new(&format!("{head}{text}"), shelf.clone());
        let length = sheet.tree().len();
        for located in sheet.snapshot().findings() {
            assert!(located.range().end <= length);
        }
    }
}

//! Every text is a rulebook or has problems, and a rulebook can be judged by.

use std::sync::Arc;

use bicinium_analysis::{Sheet, Shelf};

const SHEET: &str = "species 5\nexercise\n  soprano | C5 D5 E5 F5 | G5 | C5 |\n  \
                     bass cantus | C4 | B3 | C4 |\n";

/// Takes a text for a rulebook.
pub fn attempt(text: &str) {
    let mut shelf = Shelf::default();
    match shelf.add(text) {
        Ok(rulebook) => {
            let _ = Sheet::new(SHEET, Arc::new(shelf.bound_to(rulebook)));
        }
        Err(problems) => assert!(!problems.is_empty()),
    }
}

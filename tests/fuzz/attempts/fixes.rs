//! Whatever stands in a sheet, every place of it can be asked about, and every fix can be applied.

use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use bicinium::features::{fixes, hover};
use bicinium_analysis::{Sheet, Shelf};

/// Asks about every place of a sheet.
pub fn attempt(text: &str) {
    if text.len() > 600 {
        return;
    }
    let sheet = Sheet::new(text, Arc::new(Shelf::default()));
    let snapshot = sheet.snapshot();
    (0..=text.len() + 1).step_by(3).for_each(|offset| drop(hover::hover(&snapshot, offset)));
    for fix in fixes::fixes(&snapshot, &(0..text.len()), &AtomicBool::new(false)) {
        assert!(!fix.title.is_empty());
    }
}

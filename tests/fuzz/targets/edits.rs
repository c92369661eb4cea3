//! After any series of edits a sheet says what a fresh one says.
#![no_main]

use std::sync::Arc;

use bicinium_analysis::{Sheet, Shelf};
use bicinium_fuzz::edits;

libfuzzer_sys::fuzz_target!(|input: &str| {
    if input.len() > 4_000 {
        return;
    }
    let (text, edits) = edits(input);
    let shelf = Arc::new(Shelf::default());
    let mut sheet = Sheet::new(text, shelf.clone());
    for (range, insert) in edits {
        sheet.edit(range, insert);
        let fresh = Sheet::new(&sheet.tree().text(), shelf.clone());
        assert_eq!(told(&sheet), told(&fresh));
    }
});

fn told(sheet: &Sheet) -> String {
    let snapshot = sheet.snapshot();
    let findings: Vec<_> =
        snapshot.findings().map(|located| (located.range(), located.finding.clone())).collect();
    let readings: Vec<_> =
        snapshot.exercises().map(|(number, _, exercise)| (number, &exercise.verdict)).collect();
    format!("{findings:?}\n{readings:?}")
}

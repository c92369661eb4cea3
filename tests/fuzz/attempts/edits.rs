//! After any series of edits a sheet says what a fresh one says.

use std::ops::Range;
use std::sync::Arc;

use bicinium_analysis::{Sheet, Shelf};

/// Makes a series of edits.
pub fn attempt(input: &str) {
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
}

fn told(sheet: &Sheet) -> String {
    let snapshot = sheet.snapshot();
    let findings: Vec<_> =
        snapshot.findings().map(|located| (located.range(), located.finding.clone())).collect();
    let readings: Vec<_> =
        snapshot.exercises().map(|(number, _, exercise)| (number, &exercise.verdict)).collect();
    format!("{findings:?}\n{readings:?}")
}

/// A text and edits to it, read from one input: pieces between lines of `%`, of which the first is
/// the text and each other one an edit, beginning with two characters for its place and length.
fn edits(input: &str) -> (&str, Vec<(Range<usize>, &str)>) {
    let mut pieces = input.split("%\n");
    let text = pieces.next().unwrap_or_default();
    let edit = |piece: &'_ str| {
        let mut characters = piece.chars();
        let mut next = || characters.next().map_or(0, |it| it as usize);
        let (place, length) = (next(), next());
        let at = text.len() * (place % 128) / 128;
        at..at + length % 64
    };
    let edits = pieces.map(|piece| (edit(piece), piece.get(2..).unwrap_or_default()));
    (text, edits.collect())
}

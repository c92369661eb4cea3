//! How long notes last, above all where something cannot be read. Knows the score, no rules.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use bicinium_analysis::score::VoiceId;
use bicinium_analysis::{Sheet, Shelf};

/// What sounds in the lower voice: when it begins and when it ends, in eighths of a whole note.
fn lower(row: &str) -> Vec<(u32, u32)> {
    let text = format!("meter 4/4\n\nexercise\n  soprano | C5 | C5 | C5 |\n  bass counter {row}\n");
    let snapshot = Sheet::new(&text, Arc::new(Shelf::default())).snapshot();
    let score = &snapshot.exercises().next().unwrap().2.score;
    let eighth = score.setting.bar_length().ticks() / 8;
    let events = score.lines[VoiceId::Lower].events.iter();
    events.map(|it| (it.onset.ticks() / eighth, it.end().ticks() / eighth)).collect()
}

#[test]
fn a_note_is_held_over_the_barline() {
    assert_eq!(lower("| C4 D4 | - E4 | C4 |"), [(0, 4), (4, 12), (12, 16), (16, 24)]);
}

#[test]
fn a_note_is_not_held_into_a_bar_that_cannot_be_shared() {
    assert_eq!(lower("| C4 D4 | - (E4 F4 G4 A4 B4) | C4 |"), [(0, 4), (4, 8), (8, 16), (16, 24)]);
}

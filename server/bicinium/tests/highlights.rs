//! What belongs to the place at which a reader stands.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use bicinium::features::highlights::{Tie, highlights};
use bicinium_analysis::{Sheet, Shelf};

/// What belongs to the place that `^` marks, with how.
fn found(marked: &str) -> Vec<(String, Tie)> {
    let at = marked.find('^').unwrap();
    let text = marked.replacen('^', "", 1);
    let snapshot = Sheet::new(&text, Arc::new(Shelf::default())).snapshot();
    let found = highlights(&snapshot, at).into_iter();
    found.map(|it| (text[it.range].to_owned(), it.tie)).collect()
}

fn of(marked: &str, tie: Tie) -> Vec<String> {
    found(marked).into_iter().filter(|it| it.1 == tie).map(|it| it.0).collect()
}

#[test]
fn what_sounds_with_a_note_is_its_partner() {
    let sheet = "key C major\nexercise\n  species 2\n  soprano cantus | ^E5 | D5 |\n  \
                 bass counter | C4 E4 | G4 B3 |\n";
    assert_eq!(of(sheet, Tie::Itself), ["E5"]);
    assert_eq!(of(sheet, Tie::Partner), ["C4", "E4"]);
}

#[test]
fn a_harmony_reaches_as_far_as_it_is_prolonged() {
    let sheet = "key C major\nexercise\n  soprano | ^E5 | E5 | D5 | C5 |\n  \
                 bass | C4 | C4 | G3 | C4 |\n  harmony | I | I | V | I |\n";
    assert_eq!(of(sheet, Tie::Harmony), ["E5", "C4"]);
    let numeral = sheet.replace('^', "").replace("| V |", "| ^V |");
    assert_eq!(of(&numeral, Tie::Itself), ["V"]);
    assert_eq!(of(&numeral, Tie::Harmony), ["D5", "G3"]);
}

#[test]
fn a_finding_leads_to_its_other_half() {
    let sheet = "rulebook modal\nkey D dorian\nexercise\n  species 1\n  \
                 soprano counter | A4 | ^C5 | D5 |\n  tenor cantus | D4 | F4 | D4 |\n";
    let partners = of(sheet, Tie::Partner);
    assert!(partners.contains(&"F4".to_owned()), "{partners:?}");
    assert!(partners.len() > 1, "{partners:?}");
}

#[test]
fn the_name_of_a_cantus_is_shown_wherever_it_stands() {
    let sheet = "cantus one\n  line | C4 |\nexercise\n  soprano cantus ^one | C5 |\nexercise\n  \
                 bass cantus one | C3 |\n  soprano cantus other | C5 |\n";
    let tie = |tie| ("one".to_owned(), tie);
    assert_eq!(found(sheet), [tie(Tie::Itself), tie(Tie::Partner), tie(Tie::Partner)]);
}

#[test]
fn nothing_belongs_to_a_barline_or_to_silence() {
    assert_eq!(found("exercise\n  bass ^| rest |\n"), []);
    assert_eq!(found("exercise\n  bass | ^rest |\n"), []);
}

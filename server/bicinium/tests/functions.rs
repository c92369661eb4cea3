//! What the hover says a note does, and why something that a rule is about passes.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use bicinium::features::hover::hover;
use bicinium::features::section::Section;
use bicinium_analysis::{Sheet, Shelf};

/// What is said at a mark `^` before a note.
fn said(marked: &str) -> Vec<Section> {
    let offset = marked.find('^').expect("a mark");
    let text = marked.replace('^', "");
    hover(&Sheet::new(&text, Arc::new(Shelf::default())).snapshot(), offset).unwrap().body
}

/// What the note at the mark does.
fn function(marked: &str) -> String {
    let is_function = |section: &Section| match section {
        Section::Fact("function", text) => Some(text.clone()),
        _ => None,
    };
    said(marked).iter().find_map(is_function).unwrap_or_default()
}

/// Why something passes at the mark.
fn admitted(marked: &str) -> Vec<String> {
    let is_text = |section: Section| match section {
        Section::Text(text) if text.contains("admitted") => Some(text),
        _ => None,
    };
    said(marked).into_iter().filter_map(is_text).collect()
}

fn sheet(head: &str, upper: &str, lower: &str) -> String {
    format!(
        "{head}\n\nexercise\n  soprano counter | | {upper} | |\n  tenor cantus | | {lower} | |\n"
    )
}

const THIRD: &str = "rulebook modal\nkey C ionian\nspecies 3";

#[test]
fn fifths_on_afterbeats_pass_where_a_note_embellishes() {
    let tonal = "key C major\nspecies 2";
    let passing = sheet(tonal, "A4 G4 | F4 ^A4", "C4 | D4");
    assert_eq!(
        admitted(&passing),
        [
            "Fifths on the same weak beat of neighbouring bars, G4 over C4, then A4 over D4 in bar 3, \
          beat 2, are admitted: G4 in bar 2, beat 2 only embellishes."
        ]
    );
    assert_eq!(admitted(&sheet(tonal, "A4 ^G4 | F4 A4", "C4 | D4")), [""; 0]);
    assert_eq!(admitted(&sheet(tonal, "E4 G4 | F4 ^A4", "C4 | D4")), [""; 0]);
}

#[test]
fn where_the_rule_is_off_nothing_has_to_be_admitted() {
    let modal = "rulebook modal\nkey C ionian\nspecies 2";
    assert_eq!(admitted(&sheet(modal, "A4 G4 | F4 ^A4", "C4 | D4")), [""; 0]);
}

#[test]
fn a_note_of_a_figure_that_fails_says_where_that_is_told() {
    let first = function(&sheet(THIRD, "E4 ^F4 D4 C4 | E4 F4 G4 E4", "C4 | C4"));
    assert_eq!(first, "a dissonance without support; see below");
    let second = function(&sheet(THIRD, "E4 F4 ^D4 C4 | E4 F4 G4 E4", "C4 | C4"));
    assert_eq!(second, "a dissonance, part of a figure that fails; see F4 in bar 2, after beat 1");
}

#[test]
fn a_suspended_note_struck_again_shares_its_fate() {
    let fifth = "rulebook modal\nkey C ionian\nspecies 5";
    let early = function(&sheet(fifth, "A4 C5 | - (B4 ^C5) A4 F4", "F4 | D4"));
    assert_eq!(early, "decoration of a suspension: from B4, the resolution is B4");
    let never = function(&sheet(fifth, "A4 C5 | - ^C5 A4 F4", "F4 | D4"));
    assert_eq!(never, "a dissonance, part of a figure that fails; see C5 in bar 2, beat 2");
}

#[test]
fn only_what_is_not_written_leaves_a_dissonance_open() {
    let open = function(&sheet(THIRD, "E4 ^F4 ? ? | E4 F4 G4 E4", "C4 | C4"));
    assert_eq!(open, "a dissonance so far: it has to go on by step");
}

#[test]
fn the_notes_of_a_cambiata_know_their_places() {
    for (counter, expected) in [
        (
            "C5 ^B4 G4 A4 | B4 A4 G4 B4",
            "cambiata: from C5, skips a third and comes back to B4 in bar 3",
        ),
        (
            "C5 B4 ^G4 A4 | B4 A4 G4 B4",
            "consonant with the other voice; third note of the cambiata from C5",
        ),
        (
            "C5 B4 G4 ^A4 | B4 A4 G4 B4",
            "consonant with the other voice; fourth note of the cambiata from C5",
        ),
        ("C5 B4 G4 A4 | ^B4 A4 G4 B4", "consonant with the other voice"),
    ] {
        assert_eq!(function(&sheet(THIRD, counter, "C4 | G4")), expected);
    }
}

#[test]
fn a_dissonant_fourth_note_belongs_to_the_cambiata() {
    let fourth = function(&sheet(THIRD, "G4 F4 D4 ^E4 | F4 G4 A4 F4", "B3 | D4"));
    assert_eq!(fourth, "fourth note of the cambiata from G4");
}

//! What is said about a note has to be true of it: worked examples of figures.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use bicinium::features::hover::hover;
use bicinium::features::section::Section;
use bicinium_analysis::{Sheet, Shelf};

/// What is said under a label about the place that `^` marks in a sheet.
fn said(marked: &str, label: &str) -> String {
    let at = marked.find('^').unwrap();
    let snapshot = Sheet::new(&marked.replacen('^', "", 1), Arc::new(Shelf::default())).snapshot();
    let facts = hover(&snapshot, at).unwrap().body.into_iter();
    let mut facts = facts.filter_map(|section| match section {
        Section::Fact(name, text) if name == label => Some(text),
        _ => None,
    });
    facts.next().unwrap()
}

fn over(rows: &str, label: &str) -> String {
    said(&format!("key D minor\nmeter 4/4\n\nexercise\n  species 3\n{rows}"), label)
}

#[test]
fn the_last_dissonance_of_a_cambiata_belongs_to_it() {
    let cantus = "  alto cantus | | F4 | E4 | D4 |\n";
    let row = |bar: &str| format!("  soprano counter | | {bar} | C5 Bb4 A4 G4 | F4 |\n{cantus}");
    assert_eq!(
        over(&row("D5 ^C5 A4 Bb4"), "function"),
        "cambiata: from D5, skips a third and comes back to C5 in bar 3"
    );
    assert_eq!(over(&row("D5 C5 A4 ^Bb4"), "function"), "fourth note of the cambiata from D5");
}

#[test]
fn what_is_not_written_yet_is_waited_for() {
    let rows = "  soprano counter | | D5 C5 A4 ^Bb4 | ? |\n  alto cantus | | F4 | E4 |\n";
    assert!(over(rows, "function").contains("so far"));
}

#[test]
fn a_unison_is_neither_over_nor_under() {
    let rows = "  soprano counter | | A4 G4 ^F4 G4 | |\n  alto cantus | | F4 | |\n";
    assert_eq!(over(rows, "interval"), "a perfect unison (P1) with F4: a perfect consonance");
    assert_eq!(over(rows, "motion"), "oblique, M2 to P1");
}

/// A suspension over the end of a system, pointed at where it is dissonant.
#[test]
fn a_hold_tells_the_note_that_it_holds() {
    let sheet = "\
key C major

exercise
  species 4
  soprano counter | rest E5 | - C5 |
  tenor   cantus  | C4      | A3   |

  soprano         | ^- B4 | - C5 |
  tenor           | D4   | E4   |
";
    assert_eq!(
        said(sheet, "function"),
        "suspension 7–6: prepared in bar 2, dissonant in bar 3, resolves to B4"
    );
    let lower = sheet.replace('^', "").replace("| D4   |", "| D4 ^- |");
    assert_eq!(
        said(&lower, "line"),
        "comes from A3, a perfect fourth up; goes on to E4, a major second up"
    );
}

//! What stands above an exercise: its state, as somebody would tell it who has marked it.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use bicinium::features::lenses::lens;
use bicinium_analysis::sheet::Placed;
use bicinium_analysis::{Sheet, Shelf};

/// The lines above the exercises of a sheet, each with the text that it stands above.
fn lines(text: &str) -> Vec<(String, String)> {
    let snapshot = Sheet::new(text, Arc::new(Shelf::default())).snapshot();
    let above = |placed: &Placed| {
        let lens = lens(&placed.judged)?;
        Some((text[placed.in_sheet(lens.range)].to_owned(), lens.title))
    };
    snapshot.blocks().iter().filter_map(above).collect()
}

/// What stands above the only exercise, whose rows these are.
fn state(rows: &str) -> String {
    let text = format!("rulebook modal\nkey D dorian\n\nexercise\n  species 1\n{rows}");
    let [(_, title)] = lines(&text).try_into().unwrap();
    title
}

const CANTUS: &str = "  tenor cantus | D4 | F4 | E4 | D4 |\n";

#[test]
fn what_is_right_is_clean() {
    assert_eq!(state(&format!("  soprano counter | A4 | A4 | C#5 | D5 |\n{CANTUS}")), "clean");
}

#[test]
fn faults_are_counted_and_taste_is_not() {
    let parallel = format!("  soprano counter | A4 | C5 | C#5 | D5 |\n{CANTUS}");
    assert_eq!(state(&parallel), "2 faults");
}

#[test]
fn what_is_accepted_does_not_stand_against_it() {
    let licence = "  allow consecutive-perfects\n";
    let parallel = format!("  soprano counter | A4 | C5 | C#5 | D5 |\n{CANTUS}{licence}");
    assert_eq!(state(&parallel), "1 fault · 1 finding accepted");
    let both = parallel + "  allow chromatic-step\n";
    assert_eq!(state(&both), "clean · 2 findings accepted");
}

#[test]
fn what_is_open_is_counted_by_its_kind() {
    let open = format!("  soprano counter | A4 | ? |  | ? |\n{CANTUS}");
    assert_eq!(state(&open), "nothing wrong so far · 2 holes · 1 blank bar");
    assert_eq!(state(""), "nothing wrong so far · nothing written yet");
}

#[test]
fn what_cannot_be_read_is_no_hole() {
    let slip = format!("  soprano counter | A4 | H4 | C#5 | D5 |\n{CANTUS}");
    assert_eq!(state(&slip), "1 problem with the notation");
}

#[test]
fn every_exercise_has_its_own_line_above_its_opening() {
    let text = "cantus one\n  line | C4 |\nexercise \"a\"  // first\n  bass | ? |\nexercise\n";
    let above: Vec<_> = lines(text).into_iter().map(|(opening, _)| opening).collect();
    assert_eq!(above, ["exercise \"a\"", "exercise"]);
}

//! Six-fours: what counts as one, and how it may be left, under the answers that a school gives.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use bicinium_analysis::{Level, Sheet, Shelf};

const SECOND_INVERSIONS: &str = "[harmony.vocabulary]\nmajor = [\"I\", \"I6\", \"I6/4\", \"ii\", \"IV\", \"IV6\", \"V\", \"V6\", \"vi\"]\n";

/// The faults of a passage in C major between blank bars, when a school that extends `tonal` adds this.
fn faults(species: u8, upper: &str, lower: &str, own: &str) -> Vec<&'static str> {
    let mut shelf = Shelf::default();
    let rulebook = format!("name = \"own\"\ntitle = \"A school\"\nextends = \"tonal\"\n\n{own}");
    shelf.add(&rulebook).unwrap();
    let sheet = format!(
        "rulebook own\nkey C major\n\nexercise\n  species {species}\n  \
         soprano cantus | | {upper} | |\n  tenor counter | | {lower} | |\n"
    );
    let snapshot = Sheet::new(&sheet, Arc::new(shelf)).snapshot();
    let findings = snapshot.findings().map(|located| located.finding);
    findings.filter(|found| found.level <= Level::Fault).map(|found| found.rule).collect()
}

#[test]
fn a_second_inversion_stands_only_where_the_vocabulary_has_it() {
    let leap_to_the_fifth = |own| faults(2, "E5 | F5", "C4 G3 | A3 F3", own);
    assert_eq!(leap_to_the_fifth(""), ["six-four"]);
    assert!(leap_to_the_fifth(SECOND_INVERSIONS).is_empty());
}

#[test]
fn a_fourth_is_dissonant_whatever_the_vocabulary_has() {
    let fourth = |own| faults(2, "C5 | D5", "C4 G3 | B3 G3", own);
    assert_eq!(fourth(""), ["six-four"]);
    assert_eq!(fourth(SECOND_INVERSIONS), ["six-four"]);
}

#[test]
fn a_held_fourth_is_left_as_the_school_says_and_told_once() {
    let left_for = |note: &str, answer: &str| {
        let own = format!("[rules.six-four]\nheld-fourth = \"{answer}\"\n");
        faults(4, "B4 | C5 | B4", &format!("B3 G3 | - {note} | ? ?"), &own)
    };
    for (note, by_step_down, or_for_the_third) in
        [("E3", vec!["six-four"], vec![]), ("C4", vec!["six-four"], vec!["six-four"])]
    {
        assert_eq!(left_for(note, "by-step-down"), by_step_down, "{note}");
        assert_eq!(left_for(note, "or-for-the-third"), or_for_the_third, "{note}");
    }
}

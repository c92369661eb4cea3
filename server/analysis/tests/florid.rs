//! The rhythm of fifth species, and how every meter shares out its bars: what depends on the answer
//! of a school, on the meter, or on what is not written yet.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use bicinium_analysis::{Sheet, Shelf};

/// A line over a cantus that is not written, between bars that are not written either.
#[derive(Clone, Copy)]
struct Line {
    species: u8,
    meter: &'static str,
    bars: &'static str,
}

const fn florid(bars: &'static str) -> Line {
    Line { species: 5, meter: "2/2", bars }
}

const fn triple(bars: &'static str) -> Line {
    Line { species: 5, meter: "3/2", bars }
}

impl Line {
    /// How often a rule is raised when a school sets its switches so.
    fn times(self, rule: &str, switches: &str) -> usize {
        let rulebook = format!(
            "name = \"own\"\ntitle = \"A school\"\nextends = \"modal\"\n\n[rules.{rule}]\n\
             level = \"fault\"\n{switches}\n"
        );
        let mut books = Shelf::default();
        books.add(&rulebook).expect("a rulebook");
        let sheet = format!(
            "rulebook own\nkey C ionian\nmeter {}\n\nexercise\n  species {}\n  soprano counter {}\n  \
             tenor cantus |\n",
            self.meter, self.species, self.bars
        );
        let snapshot = Sheet::new(&sheet, Arc::new(books)).snapshot();
        let findings = snapshot.findings().map(|located| located.finding);
        findings.filter(|found| found.rule == rule).count()
    }

    fn raises(self, rule: &str) -> bool {
        self.times(rule, "") > 0
    }
}

#[test]
fn the_first_eighth_comes_as_the_school_lets_it() {
    let by_skip = florid("| | C5 D5 E5 (G4 A4) | B4 D5 | |");
    let by_step = florid("| | C5 D5 E5 (F5 E5) | D5 B4 | |");
    for (answer, expected) in [("by-step", [1, 0]), ("by-step-or-skip", [0, 0])] {
        let switches = format!("first = \"{answer}\"");
        assert_eq!([by_skip, by_step].map(|line| line.times("eighths", &switches)), expected);
    }
}

#[test]
fn a_bar_has_as_many_pairs_of_eighths_as_the_school_says() {
    let split = florid("| | C5 (B4 A4) B4 (C5 D5) | E5 - C5 - | |");
    let in_two_bars = florid("| | C5 - B4 (C5 D5) | E5 (D5 C5) B4 - | |");
    for (answer, expected) in [("one", [1, 0]), ("two-if-split", [0, 0])] {
        let switches = format!("pairs-in-a-bar = \"{answer}\"");
        assert_eq!([split, in_two_bars].map(|line| line.times("eighths", &switches)), expected);
    }
}

#[test]
fn every_breach_of_a_pair_of_eighths_is_told_once() {
    for bars in [
        "| | (C5 B4) A4 G4 A4 | B4 - C5 - | |",
        "| | C5 B4 (A4 G4) A4 | B4 - C5 - | |",
        "| | C5 (B4 A4) (G4 F4) G4 | A4 - C5 - | |",
        "| | C5 (B4 G4) A4 - | B4 - C5 - | |",
        "| | C5 (B4 A4) C5 - | B4 - C5 - | |",
        "| | C5 (- B4) A4 - | B4 - C5 - | |",
        "| | C5 (B4 -) A4 B4 | B4 - C5 - | |",
    ] {
        let expected = usize::from(!bars.contains("(B4 -)"));
        assert_eq!(florid(bars).times("eighths", ""), expected, "{bars}");
    }
}

#[test]
fn an_eighth_by_itself_makes_no_pair_of_another_one() {
    for bars in
        ["| | C5 (- B4) A4 (B4 C5) | D5 - C5 - | |", "| | C5 (B4 A4) - (B4 C5) | D5 - C5 - | |"]
    {
        assert_eq!(florid(bars).times("eighths", "pairs-in-a-bar = \"one\""), 1, "{bars}");
    }
}

#[test]
fn eighths_beside_what_is_not_written_are_not_told() {
    for bars in ["| | C5 (B4 ?) A4 - | |", "| | ? (B4 A4) ? - | |", "| | C5 - B4 (C5 D5) | | |"] {
        assert!(!florid(bars).raises("eighths"), "{bars}");
    }
}

#[test]
fn weak_quarters_follow_the_meter() {
    let pair_on = |meter, bars| Line { species: 5, meter, bars }.raises("eighths");
    assert!(!pair_on("3/2", "| | C5 D5 E5 D5 C5 (D5 E5) | F5 - - - D5 - | |"));
    assert!(pair_on("3/2", "| | C5 D5 (E5 D5) C5 D5 E5 | F5 - - - D5 - | |"));
    assert!(!pair_on("6/4", "| | C5 D5 (E5 D5) C5 D5 E5 | F5 - - D5 - - | |"));
    assert!(pair_on("6/4", "| | C5 D5 E5 (D5 C5) D5 E5 | F5 - - D5 - - | |"));
    assert!(!pair_on("3/4", "| | C5 (D5 E5) F5 D5 C5 D5 | E5 - - - D5 - | |"));
}

#[test]
fn nothing_longer_than_a_quarter_begins_on_a_weak_quarter() {
    let verdicts = [
        florid("| | C5 D5 - C5 | B4 - C5 - | |"),
        florid("| | C5 D5 E5 F5 | - E5 D5 - | |"),
        florid("| | C5 - D5 - | - E5 D5 - | |"),
        triple("| | C5 - D5 E5 - D5 | C5 - - - D5 - | |"),
        triple("| | C5 - D5 - - - | C5 - - - D5 - | |"),
    ];
    let found = verdicts.map(|line| line.raises("florid-lengths"));
    assert_eq!(found, [true, true, false, true, false]);
}

#[test]
fn a_dotted_half_without_a_tie_stands_where_the_school_admits_it() {
    let untied = florid("| | C5 - - D5 | E5 - C5 - | |");
    let tied = florid("| | C5 - D5 - | - E5 C5 - | |");
    let compound = Line { meter: "6/4", ..florid("| | C5 - - D5 - - | E5 - - C5 - - | |") };
    for (answer, expected) in [("admitted", [0, 0, 0]), ("refused", [1, 0, 0])] {
        let switches = format!("untied-dotted-half = \"{answer}\"");
        let found = [untied, tied, compound].map(|line| line.times("florid-lengths", &switches));
        assert_eq!(found, expected, "{answer}");
    }
}

#[test]
fn a_half_after_two_quarters_is_told_when_it_is_left_at_the_barline() {
    let verdicts = [
        florid("| | C5 D5 E5 - | D5 - C5 - | |"),
        florid("| | C5 D5 E5 - | - D5 C5 - | |"),
        florid("| | C5 D5 E5 - | | |"),
        florid("| | C5 D5 E5 - | ? | |"),
        florid("| | C5 - E5 - | D5 - C5 - | |"),
        florid("| | C5 D5 E5 - | D5 |"),
    ];
    let found = verdicts.map(|line| line.raises("half-after-quarters"));
    assert_eq!(found, [true, false, false, false, false, false]);
}

#[test]
fn one_rhythm_lasts_as_long_as_the_school_says() {
    let seven = florid("| | C5 - D5 C5 | B4 A4 G4 A4 | B4 - - - | |");
    let long = florid("| | C5 D5 E5 D5 | C5 B4 A4 B4 | C5 - - - | |");
    for (switches, expected) in
        [("half-bars = 2", [1, 1]), ("half-bars = 3", [0, 1]), ("half-bars = 4", [0, 0])]
    {
        let found = [seven, long].map(|line| line.times("rhythm-run", switches));
        assert_eq!(found, expected, "{switches}");
    }
}

#[test]
fn bars_are_alike_if_their_notes_begin_at_the_same_places() {
    let verdicts = [
        florid("| | C5 - D5 E5 | F5 - E5 D5 | C5 - | |"),
        florid("| | C5 - D5 E5 | - F5 E5 D5 | C5 - | |"),
        florid("| | C5 - D5 E5 | | F5 - E5 D5 | |"),
        florid("| | C5 - D5 E5 | F5 - E5 ? | C5 - | |"),
    ];
    let found = verdicts.map(|line| line.raises("rhythm-repeated"));
    assert_eq!(found, [true, false, false, false]);
}

#[test]
fn every_meter_has_the_notes_of_the_species() {
    for (species, meter, good, bad) in [
        (2, "3/2", "| | C5 D5 E5 | |", "| | C5 - D5 | |"),
        (2, "6/4", "| | C5 D5 | |", "| | C5 D5 E5 | |"),
        (3, "3/4", "| | C5 D5 E5 F5 E5 D5 | |", "| | C5 D5 E5 | |"),
        (3, "6/4", "| | C5 D5 E5 F5 E5 D5 | |", "| | C5 - D5 E5 D5 C5 | |"),
        (3, "4/4", "| | C5 D5 E5 F5 | |", "| | C5 D5 | |"),
        (4, "3/2", "| | C5 D5 E5 | - D5 C5 | |", "| | C5 - E5 | - D5 C5 | |"),
        (5, "2/2", "| | C5 (B4 A4) B4 C5 | |", "| | C5 ((B4 A4) G4) B4 C5 | |"),
        (5, "3/4", "| | C5 (D5 E5) F5 E5 D5 C5 | |", "| | C5 ((D5 E5) D5) F5 E5 D5 C5 | |"),
    ] {
        let raised = |bars| Line { species, meter, bars }.raises("species-rhythm");
        assert!(!raised(good), "species {species}, {meter}: {good}");
        assert!(raised(bad), "species {species}, {meter}: {bad}");
    }
}

#[test]
fn the_last_bar_but_one_may_be_a_whole_note_in_second_species_only() {
    for species in [2, 3, 4] {
        let line = Line { species, ..florid("| | B4 | C5 |") };
        assert_eq!(line.raises("species-rhythm"), species != 2, "species {species}");
    }
}

#[test]
fn a_line_opens_with_a_rest_as_long_as_a_note_of_its_species() {
    for (species, meter, good, bad) in [
        (2, "2/2", "| rest C5 | |", "| rest D5 - - | |"),
        (2, "3/2", "| rest C5 D5 | |", "| rest rest D5 | |"),
        (3, "2/2", "| rest C5 D5 E5 | |", "| rest rest D5 E5 | |"),
        (3, "6/4", "| rest C5 D5 E5 D5 C5 | |", "| rest - C5 D5 E5 D5 | |"),
        (3, "3/4", "| rest C5 D5 E5 D5 C5 | |", "| rest - C5 D5 E5 D5 | |"),
        (4, "2/2", "| rest C5 | - B4 | |", "| rest C5 - - | - B4 | |"),
        (5, "2/2", "| rest C5 | - B4 | |", "| (rest C5) D5 E5 D5 | C5 B4 | |"),
        (5, "2/2", "| rest C5 D5 E5 | F5 - | |", "| rest - - E5 | F5 - | |"),
        (5, "3/2", "| rest - C5 D5 E5 D5 | C5 - - | |", "| rest - - D5 E5 D5 | C5 - - | |"),
    ] {
        let raised = |bars| Line { species, meter, bars }.raises("opening-rest");
        assert!(!raised(good), "species {species}, {meter}: {good}");
        assert!(raised(bad), "species {species}, {meter}: {bad}");
    }
}

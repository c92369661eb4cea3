//! The modes: how each of them closes, above and below a cantus and in either school, and what its
//! sixth and seventh degrees may do on the way there.

#![allow(clippy::unwrap_used)]

use std::collections::BTreeSet;
use std::sync::Arc;

use bicinium_analysis::{Level, Sheet, Shelf};

const SCHOOLS: [&str; 2] = ["modal", "tonal"];

/// The rules that a school finds broken, cautions included.
fn broken(school: &str, key: &str, rows: &str) -> BTreeSet<&'static str> {
    let sheet = format!("rulebook {school}\nkey {key}\n\nexercise\n{rows}");
    let snapshot = Sheet::new(&sheet, Arc::new(Shelf::default())).snapshot();
    let findings = snapshot.findings().map(|located| located.finding);
    findings.filter(|found| found.level <= Level::Caution).map(|found| found.rule).collect()
}

fn set<const N: usize>(rules: [&'static str; N]) -> BTreeSet<&'static str> {
    BTreeSet::from(rules)
}

/// A mode with the notes of its close: second degree, what leads to the final against it, and what
/// does not.
struct Close {
    key: &'static str,
    final_note: &'static str,
    second: &'static str,
    seventh: &'static str,
    wrong: &'static str,
}

const CLOSES: [Close; 8] = [
    Close { key: "G major", final_note: "G", second: "A", seventh: "F#", wrong: "F" },
    Close { key: "C ionian", final_note: "C", second: "D", seventh: "B", wrong: "Bb" },
    Close { key: "A minor", final_note: "A", second: "B", seventh: "G#", wrong: "G" },
    Close { key: "A aeolian", final_note: "A", second: "B", seventh: "G#", wrong: "G" },
    Close { key: "D dorian", final_note: "D", second: "E", seventh: "C#", wrong: "C" },
    Close { key: "E phrygian", final_note: "E", second: "F", seventh: "D", wrong: "D#" },
    Close { key: "F lydian", final_note: "F", second: "G", seventh: "E", wrong: "Eb" },
    Close { key: "G mixolydian", final_note: "G", second: "A", seventh: "F#", wrong: "F" },
];

impl Close {
    /// The rows of a close in which one voice has the second degree and the other comes from
    /// `other`; `given` is the cantus.
    fn rows(&self, given: Voice, second: Voice, other: &str) -> String {
        let role = |voice| if voice == given { "cantus" } else { "counter" };
        let note = |voice| if voice == second { self.second } else { other };
        let row = |name: &str, voice, octave: i8| {
            let (note, end) = (note(voice), self.final_note);
            let below = if is_under_c(note, end) { octave - 1 } else { octave };
            format!("  {name} {} | | {note}{below} | {end}{octave} |\n", role(voice))
        };
        let rows = row("mezzo", Voice::Upper, 5) + &row("baritone", Voice::Lower, 4);
        // The names of notes higher than E would leave the compass of the voices in these octaves.
        match self.final_note {
            "C" | "D" | "E" => format!("  species 1\n{rows}"),
            _ => format!("  species 1\n{}", lowered(&rows)),
        }
    }
}

/// Whether a step from a note up to a final crosses into the next octave.
fn is_under_c(note: &str, end: &str) -> bool {
    end.starts_with('C') && note.starts_with('B')
}

fn lowered(rows: &str) -> String {
    rows.replace('4', "3").replace('5', "4")
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Voice {
    Upper,
    Lower,
}

/// Every mode in either school, the cantus above and below, the second degree in the cantus or in
/// the counter.
fn every_close(mut check: impl FnMut(&Close, &'static str, Voice, Voice)) {
    for close in &CLOSES {
        for school in SCHOOLS {
            for given in [Voice::Upper, Voice::Lower] {
                for second in [Voice::Upper, Voice::Lower] {
                    check(close, school, given, second);
                }
            }
        }
    }
}

#[test]
fn every_mode_closes_from_the_second_degree_and_its_own_seventh() {
    every_close(|close, school, given, second| {
        let rows = close.rows(given, second, close.seventh);
        assert_eq!(broken(school, close.key, &rows), set([]), "{school}, {}\n{rows}", close.key);
    });
}

#[test]
fn no_mode_closes_from_the_other_seventh() {
    every_close(|close, school, given, second| {
        let rows = close.rows(given, second, close.wrong);
        let found = broken(school, close.key, &rows);
        assert!(found.contains("cadence"), "{school}, {}: {found:?}\n{rows}", close.key);
    });
}

#[test]
fn no_mode_closes_without_its_second_degree_or_a_dominant() {
    for (key, upper, lower) in [
        ("G major", "C5 | B4", "A3 | G3"),
        ("D dorian", "G4 | D5", "E4 | D4"),
        ("E phrygian", "A4 | E5", "F4 | E4"),
        ("A minor", "D5 | A4", "F3 | A3"),
    ] {
        for school in SCHOOLS {
            let rows = format!(
                "  species 1\n  alto counter | | {upper} |\n  tenor cantus | | {lower} |\n"
            );
            let found = broken(school, key, &rows);
            let is_told = ["cadence", "ending"].iter().any(|rule| found.contains(rule));
            assert!(is_told, "{school}, {key}: {found:?}");
        }
    }
}

#[test]
fn the_fifth_degree_falls_to_the_final_in_the_tonal_school_only() {
    for (key, upper, lower) in [
        ("G major", "F#3 | G3", "D3 | G2"),
        ("A minor", "G#3 | A3", "E3 | A2"),
        ("D dorian", "C#4 | D4", "A3 | D3"),
        ("G mixolydian", "F#3 | G3", "D3 | G2"),
        ("F lydian", "E3 | F3", "C3 | F2"),
        ("A aeolian", "G#3 | A3", "E3 | A2"),
    ] {
        let rows =
            format!("  species 1\n  tenor cantus | | {upper} |\n  bass counter | | {lower} |\n");
        assert_eq!(broken("tonal", key, &rows), set([]), "tonal, {key}");
        assert_eq!(broken("modal", key, &rows), set(["cadence", "ending"]), "modal, {key}");
    }
}

#[test]
fn a_phrygian_close_has_no_dominant_in_either_school() {
    let rows = "  species 1\n  alto cantus | | D#5 | E5 |\n  bass counter | | B3 | E3 |\n";
    for school in SCHOOLS {
        assert!(broken(school, "E phrygian", rows).contains("cadence"), "{school}");
    }
}

/// A passage in second species between blank bars: what the schools find broken in it.
fn passage(key: &str, upper: &str, lower: &str) -> [BTreeSet<&'static str>; 2] {
    let rows = format!("  species 2\n  soprano {upper}\n  tenor {lower}\n");
    SCHOOLS.map(|school| broken(school, key, &rows))
}

#[test]
fn the_sixth_and_seventh_degrees_of_minor_are_raised_on_the_way_up() {
    let raised = passage("A minor", "counter | | E4 F#4 | G#4 B4 | |", "cantus | | C4 | E4 | |");
    assert_eq!(raised[1], set([]));
    let natural = passage("A minor", "counter | | A4 G4 | F4 E4 | |", "cantus | | F3 | A3 | |");
    assert_eq!(natural, [set([]), set([])]);
}

#[test]
fn the_raised_sixth_does_not_come_down() {
    let below = passage("D minor", "cantus | | G4 | F4 | |", "counter | | C4 B3 | A3 D4 | |");
    assert!(below.iter().all(|found| found.contains("foreign-note")), "{below:?}");
}

#[test]
fn from_the_natural_sixth_no_line_goes_to_the_raised_seventh() {
    for (upper, lower) in [
        ("counter | | A4 F4 | G#4 B4 | |", "cantus | | D4 | E4 | |"),
        ("counter | | B4 G#4 | F4 E4 | |", "cantus | | E4 | A3 | |"),
    ] {
        for found in passage("A minor", upper, lower) {
            assert!(found.contains("augmented-leap"), "{upper}: {found:?}");
        }
    }
}

#[test]
fn the_close_takes_both_raised_degrees_in_either_school() {
    for key in ["A minor", "A aeolian"] {
        for (upper, lower) in [
            ("counter | | C5 E5 | F#5 G#5 | A5 |", "cantus | | C5 | B4 | A4 |"),
            ("cantus | | D5 | B4 | A4 |", "counter | | A3 F#3 | G#3 E3 | A3 |"),
        ] {
            let found = passage(key, upper, lower);
            assert!(found.iter().all(|found| !found.contains("foreign-note")), "{found:?}");
        }
    }
}

#[test]
fn far_from_the_close_the_modal_school_asks_for_the_natural_seventh() {
    for (key, note) in
        [("A aeolian", "G#4"), ("D dorian", "C#5"), ("G mixolydian", "F#4"), ("E phrygian", "D#5")]
    {
        let rows = format!(
            "  species 1\n  soprano counter | | {note} | | | |\n  bass cantus | | | | | |\n"
        );
        assert_eq!(broken("modal", key, &rows), set(["foreign-note"]), "{key}");
        let tonal = if key == "E phrygian" { set(["foreign-note"]) } else { set([]) };
        assert_eq!(broken("tonal", key, &rows), tonal, "{key}");
    }
}

#[test]
fn a_phrygian_line_raises_neither_its_sixth_nor_its_seventh_degree() {
    let found = passage("E phrygian", "counter | | B4 C#5 | D5 B4 | |", "cantus | | G4 | G4 | |");
    assert!(found.iter().all(|found| found.contains("foreign-note")), "{found:?}");
}

#[test]
fn b_flat_is_free_in_dorian_and_lydian_for_the_modal_school() {
    for (key, is_foreign) in [
        ("D dorian", [false, true]),
        ("F lydian", [false, true]),
        ("G mixolydian", [true, true]),
        ("E phrygian", [true, true]),
    ] {
        let rows = "  species 1\n  alto counter | | Bb4 | A4 | |\n  bass cantus | | | | |\n";
        let found = SCHOOLS.map(|school| broken(school, key, rows).contains("foreign-note"));
        assert_eq!(found, is_foreign, "{key}");
    }
}

#[test]
fn a_note_and_its_raised_form_do_not_meet_across_the_voices() {
    for (key, upper, lower) in [
        ("A minor", "cantus | | E4 | B4 | |", "counter | | C4 G3 | G#3 E3 | |"),
        ("D dorian", "counter | | C5 E4 | A4 F4 | D4 |", "cantus | | A3 | C#4 | D4 |"),
    ] {
        let same_voice = passage(key, upper, lower);
        assert!(same_voice.iter().all(|found| !found.contains("cross-relation")), "{same_voice:?}");
    }
    for (key, upper, lower) in [
        ("A minor", "counter | | C5 G4 | B4 E4 | |", "cantus | | E4 | G#3 | |"),
        ("D minor", "cantus | | C5 | E5 | |", "counter | | A3 F3 | C#4 A3 | |"),
        ("G mixolydian", "cantus | | F4 | A4 | |", "counter | | A3 D4 | F#3 D3 | |"),
    ] {
        let across = passage(key, upper, lower);
        assert!(across.iter().all(|found| found.contains("cross-relation")), "{key}: {across:?}");
    }
}

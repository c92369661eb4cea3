//! Where a second harmony may enter inside a bar: passages of third species in bars of two, three
//! and nine, with the harmonies read by hand. Each stands between blank bars, so that its first bar
//! is the second. The chords are broken by leaps, so that no note can be taken for a passing one.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use bicinium_analysis::{Exercise, Level, Sheet, Shelf};

/// The harmonies of a tonal passage as they enter, and how many faults of dissonance there are.
fn heard(species: &str, meter: &str, key: &str, rows: &str) -> (Vec<String>, usize) {
    let text = format!("key {key}\nmeter {meter}\n\nexercise\n{species}{rows}");
    let snapshot = Sheet::new(&text, Arc::new(Shelf::default())).snapshot();
    let findings: Vec<_> = snapshot.findings().map(|located| located.finding).collect();
    assert!(findings.iter().all(|found| found.level != Level::Notation), "{text}");
    let is_unheard = |rule: &str| matches!(rule, "foreign-to-harmony" | "weak-dissonance");
    let faults = findings.iter().filter(|found| is_unheard(found.rule)).count();
    let block = snapshot.blocks().iter().find(|block| block.judged.exercise.is_some()).unwrap();
    (entries(block.judged.exercise.as_ref().unwrap()), faults)
}

/// "2:1 vi": bar, beat and harmony.
fn entries(exercise: &Exercise) -> Vec<String> {
    let setting = &exercise.score.setting;
    let stretches = exercise.verdict.reading.stretches.iter();
    let place =
        |onset| (setting.bar_of(onset) + 1, setting.meter.beat(setting.within_bar(onset)).0);
    stretches
        .map(|stretch| {
            let (bar, beat) = place(stretch.onset);
            format!("{bar}:{beat} {}", stretch.numeral)
        })
        .collect()
}

const THIRD: &str = "  species 3\n";

/// A bar of the upper voice over a cantus note, in third species and C major.
#[track_caller]
fn over_the_sixth_degree(meter: &str, counter: &str, expected: &[&str]) {
    let rows = format!("  soprano counter | | {counter} | |\n  tenor cantus | | A3 | |\n");
    let (entries, faults) = heard(THIRD, meter, "C major", &rows);
    assert_eq!((entries, faults), (expected.iter().map(ToString::to_string).collect(), 0));
}

/// The same, where no reading with two harmonies explains the bar.
#[track_caller]
fn is_not_heard_over_the_sixth_degree(meter: &str, counter: &str) {
    let rows = format!("  soprano counter | | {counter} | |\n  tenor cantus | | A3 | |\n");
    let (entries, faults) = heard(THIRD, meter, "C major", &rows);
    assert!(faults > 0, "{entries:?}");
}

#[test]
fn in_three_halves_a_harmony_enters_on_the_second_or_the_third() {
    over_the_sixth_degree("3/2", "E5 C5 F4 A4 C5 A4", &["2:1 vi", "2:2 IV6"]);
    over_the_sixth_degree("3/2", "E5 C5 A4 E5 F4 A4", &["2:1 vi", "2:3 IV6"]);
    over_the_sixth_degree("3/2", "F4 A4 E5 C5 E5 C5", &["2:1 IV6", "2:2 vi"]);
}

#[test]
fn a_bar_of_three_has_no_third_harmony() {
    is_not_heard_over_the_sixth_degree("3/2", "E5 C5 F4 A4 E5 C5");
    is_not_heard_over_the_sixth_degree("9/4", "E5 C5 E5 F4 A4 F4 E5 C5 E5");
}

#[test]
fn between_its_main_beats_a_bar_does_not_change_its_harmony() {
    is_not_heard_over_the_sixth_degree("3/2", "E5 C5 E5 F4 C5 F4");
    is_not_heard_over_the_sixth_degree("6/4", "E5 C5 F4 A4 F4 A4");
}

#[test]
fn in_three_quarters_a_harmony_enters_on_the_second_only() {
    over_the_sixth_degree("3/4", "E5 C5 F4 A4 C5 A4", &["2:1 vi", "2:2 IV6"]);
    is_not_heard_over_the_sixth_degree("3/4", "E5 C5 A4 E5 F4 A4");
}

#[test]
fn bars_of_two_change_in_the_middle() {
    over_the_sixth_degree("2/2", "E5 C5 F4 A4", &["2:1 vi", "2:2 IV6"]);
    over_the_sixth_degree("4/4", "E5 C5 F4 A4", &["2:1 vi", "2:3 IV6"]);
    over_the_sixth_degree("6/4", "E5 C5 E5 F4 A4 F4", &["2:1 vi", "2:4 IV6"]);
    is_not_heard_over_the_sixth_degree("4/4", "E5 C5 E5 F4");
}

#[test]
fn bars_of_nine_change_on_their_thirds() {
    over_the_sixth_degree("9/4", "E5 C5 E5 F4 A4 F4 A4 F4 A4", &["2:1 vi", "2:4 IV6"]);
    over_the_sixth_degree("9/4", "E5 C5 E5 C5 E5 C5 F4 A4 F4", &["2:1 vi", "2:7 IV6"]);
    is_not_heard_over_the_sixth_degree("9/4", "E5 C5 A4 E5 F4 A4 F4 A4 F4");
}

#[test]
fn the_next_bar_may_have_two_harmonies_again() {
    let rows = "  soprano cantus | | C5 | A4 | |\n  \
                tenor counter | | E3 G3 E3 C4 A3 F3 | A3 F3 D3 F3 D3 A3 | |\n";
    let (entries, faults) = heard(THIRD, "3/2", "C major", rows);
    assert_eq!(
        (entries, faults),
        (vec!["2:1 I6".into(), "2:3 IV6".into(), "3:1 IV6".into(), "3:2 ii".into()], 0)
    );
}

#[test]
fn a_minor_key_and_a_lower_counter_are_read_alike() {
    let rows = "  soprano cantus | | E5 | |\n  tenor counter | | A3 C4 G#3 B3 G#3 B3 | |\n";
    let (entries, faults) = heard(THIRD, "3/2", "A minor", rows);
    assert_eq!((entries, faults), (vec!["2:1 i".into(), "2:2 V6".into()], 0));
}

#[test]
fn second_species_has_one_harmony_in_every_bar() {
    let rows = "  soprano counter | | E5 F4 A4 | |\n  tenor cantus | | A3 | |\n";
    let (entries, faults) = heard("  species 2\n", "3/2", "C major", rows);
    assert_eq!((entries.len(), faults > 0), (1, true));
}

#[test]
fn what_is_written_binds_every_beat() {
    let rows = "  harmony | | vi IV6 vi | |\n  soprano counter | | E5 C5 F4 A4 E5 C5 | |\n  \
                tenor cantus | | A3 | |\n";
    let (entries, faults) = heard(THIRD, "3/2", "C major", rows);
    assert_eq!((entries, faults), (vec!["2:1 vi".into(), "2:2 IV6".into(), "2:3 vi".into()], 0));
}

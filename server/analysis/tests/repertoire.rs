//! The cantus that every sheet may name: the same notes as in the worked examples, and nearer
//! definitions before them. Knows sheets and findings, no rules.

#![allow(clippy::unwrap_used)]

use std::path::Path;
use std::sync::Arc;

use bicinium_analysis::repertoire::{self, Cantus};
use bicinium_analysis::score::{Event, VoiceId};
use bicinium_analysis::{Sheet, Shelf, Snapshot};

fn judged(text: &str) -> Arc<Snapshot> {
    Sheet::new(text, Arc::new(Shelf::default())).snapshot()
}

fn found(text: &str) -> Vec<&'static str> {
    judged(text).findings().map(|located| located.finding.rule).collect()
}

fn exercise(name: &str, first: &str) -> String {
    format!(
        "rulebook modal\n\nexercise\n  soprano cantus {name} | {first} | F4 | E4 |\n  bass counter | | | |\n"
    )
}

/// The notes of the given voices in a sheet of worked examples.
fn given(sheet: &str) -> Vec<Vec<String>> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/worked").join(sheet);
    let snapshot = judged(&std::fs::read_to_string(path).unwrap());
    let given = snapshot.exercises().filter_map(|(.., exercise)| {
        let voice: VoiceId = exercise.score.setting.cantus?;
        let pitches = exercise.score.lines[voice].events.iter().filter_map(Event::pitch);
        Some(pitches.map(|pitch| pitch.to_string()).collect())
    });
    given.collect()
}

fn notes(cantus: &Cantus) -> Vec<String> {
    cantus.defined.notes.iter().map(ToString::to_string).collect()
}

#[test]
fn the_notes_are_those_of_the_worked_examples() {
    let fux = (1..=5).flat_map(|species| given(&format!("fux-1725-species-{species}.bicinium")));
    let given: Vec<_> = fux.chain(given("lehmann-1907.bicinium")).collect();
    let known: Vec<_> = repertoire::all().iter().filter(|it| given.contains(&notes(it))).collect();
    let names: Vec<_> = known.iter().map(|cantus| cantus.defined.name.as_str()).collect();
    let of_fux = ["fux-dorian", "fux-phrygian", "fux-mixolydian", "fux-ionian"];
    let of_lehmann = ["lehmann-6", "lehmann-17", "lehmann-62", "lehmann-78"];
    assert_eq!(names, [of_fux, of_lehmann].concat());
}

#[test]
fn each_begins_and_ends_on_the_tonic_of_its_key() {
    for cantus in repertoire::all() {
        let ends = [cantus.defined.notes.first(), cantus.defined.notes.last()];
        for end in ends.into_iter().flatten() {
            assert_eq!(end.class(), cantus.key.tonic, "{}", cantus.defined.name);
        }
    }
    assert_eq!(repertoire::all().len(), 10);
}

#[test]
fn a_sheet_may_name_one_without_defining_it() {
    assert!(!found(&exercise("fux-dorian", "D4")).contains(&"cantus-unknown"));
    let altered = found(&exercise("fux-dorian", "C4"));
    assert!(altered.contains(&"cantus-altered"), "{altered:?}");
}

#[test]
fn a_definition_in_the_sheet_is_nearer() {
    let own = "cantus fux-dorian\n  key D dorian\n  line | C4 | F4 | E4 |\n\n";
    let sheet = format!("{own}{}", exercise("fux-dorian", "C4").replace("rulebook modal\n\n", ""));
    let found = found(&sheet);
    assert!(!found.contains(&"cantus-altered") && !found.contains(&"cantus-twice"), "{found:?}");
}

#[test]
fn a_misspelt_name_is_told_with_what_was_meant() {
    let snapshot = judged(&exercise("fux-dorien", "D4"));
    let finding = snapshot.findings().find(|it| it.finding.rule == "cantus-unknown").unwrap();
    assert_eq!(finding.finding.mends[0].text, "fux-dorian");
}

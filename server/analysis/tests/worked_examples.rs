//! Published examples under the school they belong to: the two-part examples of Fux 1725 in first
//! and second species raise no fault in the modal school.

#![allow(clippy::unwrap_used)]

use std::path::Path;
use std::sync::Arc;

use bicinium_analysis::{Level, Sheet, Shelf};

/// The exercises of a sheet and its faults, as figure, rule and message.
fn judged(species: u8) -> (usize, Vec<String>) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/worked");
    let path = folder.join(format!("fux-1725-species-{species}.bicinium"));
    let text = std::fs::read_to_string(path).unwrap();
    let snapshot = Sheet::new(&text, Arc::new(Shelf::default())).snapshot();
    let grave = snapshot.findings().filter(|located| located.finding.level <= Level::Fault);
    let told = grave.map(|located| {
        let title = located.block.judged.exercise.as_ref().and_then(|e| e.title.clone());
        format!("{title:?} {}: {}", located.finding.rule, located.finding.message)
    });
    (snapshot.exercises().count(), told.collect())
}

#[test]
fn first_species_has_no_fault() {
    assert_eq!(judged(1), (6, Vec::new()));
}

#[test]
fn second_species_has_no_fault() {
    assert_eq!(judged(2), (8, Vec::new()));
}

#[test]
fn fourth_species_has_no_fault() {
    assert_eq!(judged(4), (4, Vec::new()));
}

//! What is still open, held against the plainest of all ways: every pitch put into every hole, and
//! the whole judged.

#![allow(clippy::unwrap_used)]

use std::collections::BTreeSet;
use std::sync::Arc;

use bicinium_analysis::sheet::Change;
use bicinium_analysis::{Exercise, Sheet, Shelf};
use bicinium_realizer::{Budget, Extent, Realizations, realize};
use bicinium_theory::{Accidental, Letter, Pitch};

fn exercise(text: &str) -> Exercise {
    let snapshot = Sheet::new(text, Arc::new(Shelf::default())).snapshot();
    snapshot.exercises().next().unwrap().2.clone()
}

fn realized(text: &str) -> Realizations {
    realize(&exercise(text), Budget { trials: 1_000_000, best: 5 })
}

/// All natural and once altered pitches of the octaves around.
fn all_pitches() -> Vec<Pitch> {
    let letters = [Letter::C, Letter::D, Letter::E, Letter::F, Letter::G, Letter::A, Letter::B];
    let altered = |letter, octave| {
        [-1, 0, 1].map(|by| Pitch::new(letter, Accidental::new(by).unwrap(), octave).unwrap())
    };
    (2..=5).flat_map(|octave| letters.map(|letter| altered(letter, octave))).flatten().collect()
}

/// The pitches that leave no fault, each put into the holes in turn.
fn by_trying(exercise: &Exercise, realizations: &Realizations) -> BTreeSet<Vec<Pitch>> {
    let holes: Vec<_> = realizations.openings.iter().map(|opening| opening.hole).collect();
    let mut ways: Vec<Vec<Pitch>> = vec![Vec::new()];
    for _ in &holes {
        let longer = |way: &Vec<Pitch>| {
            let way = way.clone();
            all_pitches().into_iter().map(move |pitch| [way.clone(), vec![pitch]].concat())
        };
        ways = ways.iter().flat_map(longer).collect();
    }
    let is_clean = |way: &Vec<Pitch>| {
        let filled = holes.iter().zip(way);
        let change = |(hole, pitch): (&bicinium_realizer::Hole, &Pitch)| Change {
            voice: hole.voice,
            onset: hole.onset,
            pitch: *pitch,
        };
        let changes: Vec<_> = filled.map(change).collect();
        exercise.account_with(&changes).tally().faults == 0
    };
    ways.into_iter().filter(is_clean).collect()
}

#[track_caller]
fn agrees_with_trying(text: &str) {
    let exercise = exercise(text);
    let realizations = realize(&exercise, Budget { trials: 1_000_000, best: 100_000 });
    assert_eq!(realizations.extent, Extent::All);
    let ours: BTreeSet<_> = realizations.best.iter().map(|way| way.pitches.clone()).collect();
    assert_eq!(ours.len() as u64, realizations.count, "every way once\n{text}");
    let all = by_trying(&exercise, &realizations);
    assert!(ours.is_subset(&all), "{:?}", ours.difference(&all).collect::<Vec<_>>());
    let usual: BTreeSet<_> =
        all.into_iter().filter(|way| way.iter().copied().all(is_natural)).collect();
    assert!(usual.is_subset(&ours), "{:?}", usual.difference(&ours).collect::<Vec<_>>());
}

fn is_natural(pitch: Pitch) -> bool {
    pitch.accidental() == Accidental::NATURAL
}

const FIRST: &str = "rulebook tonal
key C major

exercise
  species 1
  soprano counter | G4 | ? | C5 | B4 | ? | C5 |
  tenor   cantus  | C4 | E4 | F4 | G4 | D4 | C4 |
";

#[test]
fn first_species_in_either_school() {
    agrees_with_trying(FIRST);
    agrees_with_trying(&FIRST.replace("tonal", "modal"));
}

#[test]
fn second_species_below_the_cantus() {
    let text = "rulebook tonal
key C major

exercise
  species 2
  soprano cantus  | C5      | D5    | E5    | D5    | C5 |
  tenor   counter | rest C4 | B3 ?  | ? G3  | G3 B3 | C4 |
";
    agrees_with_trying(text);
    agrees_with_trying(&text.replace("tonal", "modal"));
}

#[test]
fn holes_in_both_voices_at_once() {
    agrees_with_trying(
        "rulebook modal
key D dorian

exercise
  species 1
  soprano counter | D5 | C5 | ? | C#5 | D5 |
  tenor   counter | D4 | E4 | ? | E4  | D4 |
",
    );
}

#[test]
fn without_holes_it_is_the_judge() {
    let clean = FIRST.replace("| ? | C5 | B4 | ? |", "| C5 | A4 | B4 | B4 |");
    let count = |text: &str| realized(text).count;
    let faults = exercise(&clean).account().tally().faults;
    assert_eq!(count(&clean), u64::from(faults == 0));
    assert_eq!(count(&clean.replace("B4 | C5 |", "D5 | C5 |")), 0);
}

#[test]
fn a_dead_end_names_the_place_and_the_rules() {
    let text = FIRST.replace("| D4 | C4 |", "| D4 | B3 |");
    let realizations = realized(&text);
    assert_eq!((realizations.count, realizations.extent), (0, Extent::All));
    let dead_end = realizations.dead_end.unwrap();
    assert!(dead_end.rules.contains(&"ending"), "{dead_end:?}");
}

#[test]
fn a_small_budget_is_owned_up_to() {
    let realizations = realize(&exercise(FIRST), Budget { trials: 40, best: 1 });
    assert_eq!(realizations.extent, Extent::AtLeast);
    assert_eq!(realizations.dead_end, None);
}

#[test]
fn the_best_come_first_and_are_the_least_of_all() {
    let realizations = realized(FIRST);
    let costs: Vec<_> = realizations.best.iter().map(|way| way.resistance).collect();
    assert!(costs.is_sorted(), "{costs:?}");
    for opening in &realizations.openings {
        assert!(opening.viable.iter().any(|known| known.1 == costs[0]), "{opening:?}");
    }
}

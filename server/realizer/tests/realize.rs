//! What is still open, held against the plainest of all ways: every pitch put into every hole, and
//! the whole judged.

#![allow(clippy::unwrap_used)]

use std::collections::BTreeSet;
use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use bicinium_analysis::score::{Sound, VoiceId};
use bicinium_analysis::sheet::Change;
use bicinium_analysis::{Exercise, Sheet, Shelf};
use bicinium_realizer::{
    Budget, Count, DeadEnd, Extent, Opening, Realization, Realizer, Viable, Watch, pitches,
};
use bicinium_theory::{Duration, Pitch};

fn exercise(text: &str) -> Exercise {
    let snapshot = Sheet::new(text, Arc::new(Shelf::default())).snapshot();
    snapshot.exercises().next().unwrap().2.clone()
}

fn with<T>(exercise: &Exercise, budget: Budget, ask: impl FnOnce(&Realizer<'_>) -> T) -> T {
    let cancelled = AtomicBool::new(false);
    let watch = Watch::new(budget, &cancelled);
    ask(&Realizer::new(exercise, &watch))
}

fn ask<T>(text: &str, question: impl FnOnce(&Realizer<'_>) -> T) -> T {
    with(&exercise(text), Budget::default(), question)
}

fn dead_end(text: &str) -> Option<DeadEnd> {
    let exercise = exercise(text);
    let cancelled = AtomicBool::new(false);
    let watch = Watch::new(Budget::default(), &cancelled);
    Realizer::new(&exercise, &watch).dead_end()
}

/// The holes of an exercise: the voice, and when they begin.
fn holes(exercise: &Exercise) -> Vec<(VoiceId, Duration)> {
    let of = |voice: VoiceId| exercise.score.lines[voice].events.iter().map(move |e| (voice, e));
    let events = VoiceId::BOTH.into_iter().flat_map(of);
    events.filter(|(_, e)| e.sound == Sound::Hole).map(|(voice, e)| (voice, e.onset)).collect()
}

fn filled(way: &Realization, holes: &[(VoiceId, Duration)]) -> Vec<Pitch> {
    holes.iter().map(|(voice, onset)| way.note(*voice, *onset).unwrap().pitch).collect()
}

/// The pitches that leave no fault, each put into the holes in turn.
fn by_trying(exercise: &Exercise, holes: &[(VoiceId, Duration)]) -> BTreeSet<Vec<Pitch>> {
    let pitches = pitches(&exercise.score.setting);
    let mut ways: Vec<Vec<Pitch>> = vec![Vec::new()];
    for _ in holes {
        let longer = |way: &Vec<Pitch>| {
            let way = way.clone();
            pitches.iter().map(move |pitch| [way.clone(), vec![*pitch]].concat())
        };
        ways = ways.iter().flat_map(longer).collect();
    }
    let is_clean = |way: &Vec<Pitch>| {
        let filled = holes.iter().zip(way);
        let change = |(hole, pitch): (&(VoiceId, Duration), &Pitch)| Change {
            voice: hole.0,
            onset: hole.1,
            pitch: *pitch,
        };
        let changes: Vec<_> = filled.map(change).collect();
        exercise.account_with(&changes).tally().faults == 0
    };
    ways.into_iter().filter(is_clean).collect()
}

#[test]
fn a_cantus_by_itself() {
    agrees_with_trying(
        "rulebook modal\nkey D dorian\n\nexercise\n  \
         alto cantus | D4 | F4 | ? | D4 | G4 | ? | G4 | F4 | E4 | D4 |\n",
    );
    agrees_with_trying(
        "key G major\n\nexercise\n  tenor cantus | ? | A3 | C4 | B3 | D4 | C4 | A3 | ? | G3 |\n",
    );
}

#[track_caller]
fn agrees_with_trying(text: &str) {
    let exercise = exercise(text);
    let holes = holes(&exercise);
    let all = by_trying(&exercise, &holes);
    with(&exercise, Budget::default(), |realizer| {
        let count = Count { number: all.len().into(), extent: Extent::All };
        assert_eq!(realizer.count(), count, "{text}");
        let best = realizer.best(usize::MAX);
        assert_eq!(best.found.len(), all.len(), "every way once\n{text}");
        let ours: BTreeSet<_> = best.found.iter().map(|way| filled(way, &holes)).collect();
        assert_eq!(ours, all, "{text}");
        for (index, (voice, onset)) in holes.iter().enumerate() {
            let viable = realizer.opening(*voice, *onset).found;
            let ours: BTreeSet<_> = viable.iter().map(|viable| viable.pitch).collect();
            let tried: BTreeSet<_> = all.iter().map(|way| way[index]).collect();
            assert_eq!(ours, tried, "{text}");
        }
    });
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
    let count = |text: &str| ask(text, |realizer| realizer.count().number);
    let faults = exercise(&clean).account().tally().faults;
    assert_eq!(count(&clean), u32::from(faults == 0).into());
    assert_eq!(count(&clean.replace("B4 | C5 |", "D5 | C5 |")), 0u32.into());
}

#[test]
fn a_dead_end_names_the_smallest_stretch_and_the_rules() {
    let text = FIRST.replace("| D4 | C4 |", "| D4 | B3 |");
    let dead_end = dead_end(&text).unwrap();
    assert!(dead_end.rules.contains(&"ending"), "{dead_end:?}");
    assert_eq!((dead_end.first, dead_end.last), (5, 5), "{dead_end:?}");
}

#[test]
fn where_there_is_a_way_there_is_no_dead_end() {
    assert_eq!(dead_end(FIRST), None);
}

#[test]
fn a_small_budget_is_owned_up_to() {
    let budget = Budget { trials: 40, ..Budget::default() };
    with(&exercise(FIRST), budget, |realizer| {
        assert_eq!(realizer.count().extent, Extent::AtLeast);
        assert_eq!(realizer.best(1).extent, Extent::AtLeast);
        assert_eq!(realizer.opening(VoiceId::Upper, Duration::WHOLE).extent, Extent::AtLeast);
        assert_eq!(realizer.dead_end(), None);
    });
}

/// As soon as all ways are known, all pitches are, even if there is no time left to find the best way of each.
#[test]
fn pitches_are_known_before_their_best_ways_are() {
    let text = "rulebook modal
key D dorian

exercise
  species 3
  soprano counter | | | | | | |
  alto    cantus  | D4 | F4 | E4 | G4 | E4 | D4 |
";
    let exercise = exercise(text);
    let pitches = |trials: u64| {
        let budget = Budget { trials, ..Budget::default() };
        with(&exercise, budget, |realizer| {
            let found = realizer.openings();
            let pitch = |way: &Viable| (way.pitch, way.way.resistance);
            let own = |it: &Opening| (it.voice, it.onset, it.viable.iter().map(pitch).collect());
            (found.found.iter().map(own).collect::<Vec<(_, _, Vec<_>)>>(), found.extent)
        })
    };
    let (all, extent) = pitches(u64::MAX);
    assert_eq!(extent, Extent::All);
    let budgets = (10..40).map(|power| pitches(1 << power));
    let (some, extent) = budgets.into_iter().find(|(found, _)| !found.is_empty()).unwrap();
    assert_eq!(extent, Extent::AtLeast, "a budget that is too small for all");
    assert_eq!(some.len(), all.len());
    for ((_, onset, mut some), (_, _, mut all)) in some.into_iter().zip(all) {
        some.sort_unstable();
        all.sort_unstable();
        let names = |found: &[(Pitch, u32)]| found.iter().map(|it| it.0).collect::<Vec<_>>();
        assert_eq!(names(&some), names(&all), "{onset:?}");
        assert!(some.iter().zip(&all).all(|(some, all)| some.1 >= all.1), "{onset:?}");
    }
}

#[test]
fn the_best_come_first_and_are_the_least_of_all() {
    ask(FIRST, |realizer| {
        let costs: Vec<_> = realizer.best(5).found.iter().map(|way| way.resistance).collect();
        assert!(costs.is_sorted(), "{costs:?}");
        for opening in realizer.openings().found {
            assert_eq!(opening.viable.first().unwrap().way.resistance, costs[0], "{opening:?}");
        }
    });
}

/// A rule that looks at the whole leaves nothing to merge; the ways are found one by one.
#[test]
fn a_fault_of_the_whole_line_is_minded() {
    let mut shelf = Shelf::default();
    let rulebook = "name = \"steps\"\nextends = \"modal\"\n[rules.few-steps]\nlevel = \"fault\"\n[rules.high-point]\nlevel = \"fault\"";
    shelf.add(rulebook).unwrap();
    let text = "rulebook steps
key C major

exercise
  species 1
  soprano counter | G4 | ? | C5 | A4 | F4 | E4 | ? | G4 | B4 | C5 |
  tenor   cantus  | C4 | E4 | A3 | D4 | D4 | C4 | F4 | E4 | D4 | C4 |
";
    let snapshot = Sheet::new(text, Arc::new(shelf)).snapshot();
    let exercise = snapshot.exercises().next().unwrap().2.clone();
    let all = by_trying(&exercise, &holes(&exercise));
    with(&exercise, Budget::default(), |realizer| {
        assert_eq!(realizer.count(), Count { number: all.len().into(), extent: Extent::All });
    });
}

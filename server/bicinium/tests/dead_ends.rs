//! What cannot be finished: told exactly when trying every pitch finds no way either, and what is
//! offered against it opens a way.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use bicinium::features::fixes;
use bicinium::features::realizing::{foresee, is_in_doubt};
use bicinium_analysis::score::{Sound, VoiceId};
use bicinium_analysis::sheet::Change;
use bicinium_analysis::{Exercise, Finding, Sheet, Shelf, Snapshot};
use bicinium_realizer::{Extent, Realizer, Terms, Watch, pitches};
use bicinium_theory::Duration;

/// Nobody gives up waiting.
static STILL_WAITED_FOR: AtomicBool = AtomicBool::new(false);

/// What a note of the last bars but two is put in place of, in turn: near, far, foreign.
const NOTES: [&str; 9] = ["C4", "D4", "E4", "F4", "G4", "A4", "B4", "C5", "F5"];

fn judged(text: &str) -> Arc<Snapshot> {
    Sheet::new(text, Arc::new(Shelf::default())).snapshot()
}

/// Exercises of which one note and two holes stand in the counter.
fn sheets() -> impl Iterator<Item = String> {
    let schools = ["modal", "tonal"].into_iter();
    schools.flat_map(|school| {
        NOTES.into_iter().flat_map(move |note| {
            [
                format!(
                    "rulebook {school}\nkey D dorian\n\nexercise\n  species 1\n  soprano counter \
                     | A4 | ? | {note} | ? | D5 |\n  tenor cantus | D4 | F4 | D4 | E4 | D4 |\n"
                ),
                format!(
                    "rulebook {school}\nkey C major\n\nexercise\n  species 1\n  soprano cantus \
                     | C5 | E5 | D5 | C5 |\n  tenor counter | ? | {note} | ? | C4 |\n"
                ),
                format!(
                    "rulebook {school}\nkey C major\n\nexercise\n  species 2\n  soprano counter \
                     | rest G4 | {note} ? | ? B4 | C5 |\n  tenor cantus | C4 | F4 | D4 | C4 |\n"
                ),
            ]
        })
    })
}

/// Whether some pair of pitches brings no fault that was not there.
fn can_be_filled(exercise: &Exercise) -> bool {
    let holes = holes(exercise);
    let [first, second] = holes[..] else { panic!("two holes") };
    let (before, all) = (exercise.account(), pitches(&exercise.score.setting));
    let change = |(voice, onset), pitch| Change { voice, onset, pitch };
    all.iter().any(|one| {
        all.iter().any(|other| {
            let changes = [change(first, *one), change(second, *other)];
            exercise.account_with(&changes).brings_no_fault_to(&before)
        })
    })
}

fn holes(exercise: &Exercise) -> Vec<(VoiceId, Duration)> {
    let events = VoiceId::BOTH.into_iter().flat_map(|voice| {
        exercise.score.lines[voice].events.iter().map(move |event| (voice, event))
    });
    let holes = events.filter(|(_, event)| event.sound == Sound::Hole);
    holes.map(|(voice, event)| (voice, event.onset)).collect()
}

/// Whether the realizer finds a way with the faults that stand left alone.
fn leads_on(text: &str) -> bool {
    let snapshot = judged(text);
    let (_, _, exercise) = snapshot.exercises().next().unwrap();
    let watch = Watch::new(bicinium_realizer::Budget::default(), &STILL_WAITED_FOR);
    let found = Realizer::on(Terms::as_it_stands(exercise), exercise, &watch).best(1);
    assert_eq!(found.extent, Extent::All);
    !found.found.is_empty()
}

fn dead_end(snapshot: &Snapshot) -> Option<Finding> {
    let (_, block, _) = snapshot.exercises().next().unwrap();
    assert!(is_in_doubt(&block.judged));
    let found = foresee(&block.judged, &STILL_WAITED_FOR);
    assert!(!is_in_doubt(&block.judged), "it is known now");
    found
}

#[test]
fn it_is_told_when_no_pair_of_pitches_would_do() {
    let (mut closed, mut open) = (0, 0);
    for text in sheets() {
        let snapshot = judged(&text);
        let (_, _, exercise) = snapshot.exercises().next().unwrap();
        let found = dead_end(&snapshot);
        assert_eq!(found.is_none(), can_be_filled(exercise), "{text}{found:?}");
        if found.is_some() {
            closed += 1;
        } else {
            open += 1;
        }
    }
    assert!(closed > 10 && open > 10, "{closed} closed, {open} open");
}

#[test]
fn what_is_offered_against_it_leads_on() {
    let mut offered = 0;
    for text in sheets() {
        let snapshot = judged(&text);
        let Some(found) = dead_end(&snapshot) else { continue };
        let block = snapshot.exercises().next().unwrap().1;
        for fix in fixes::carried(block, &found) {
            let [(range, insert)] = &fix.edits[..] else { panic!("one note: {fix:?}") };
            let mut changed = text.clone();
            changed.replace_range(range.clone(), insert);
            assert!(leads_on(&changed), "{}\n{text}", fix.title);
            offered += 1;
        }
    }
    assert!(offered > 20, "{offered}");
}

//! There and back: every worked example exported as a score, imported as a sheet and judged again has
//! the same notes, and its export is the same.

#![allow(clippy::unwrap_used)]

use std::path::Path;
use std::sync::Arc;

use bicinium::features::importing::{Task, sheet};
use bicinium_analysis::score::{Sound, VoiceId};
use bicinium_analysis::{Exercise, Sheet};
use bicinium_export::{import, musicxml};
use bicinium_theory::{Duration, Pitch};

type Notes = Vec<(VoiceId, Duration, Duration, Pitch)>;

fn notes(exercise: &Exercise) -> Notes {
    let of = |voice: VoiceId| {
        let events = exercise.score.lines[voice].events.iter();
        events.filter_map(move |it| Some((voice, it.onset, it.duration, it.pitch()?)))
    };
    VoiceId::BOTH.into_iter().flat_map(of).collect()
}

fn has_holes(exercise: &Exercise) -> bool {
    let events = VoiceId::BOTH.into_iter().flat_map(|voice| &exercise.score.lines[voice].events);
    events.into_iter().any(|event| event.sound == Sound::Hole)
}

fn exported(exercise: &Exercise) -> Vec<u8> {
    let mut score = Vec::new();
    musicxml::write(exercise, &[], &[], &mut score).unwrap();
    score
}

#[test]
fn every_worked_example_comes_back() {
    let worked = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/worked");
    let mut compared = 0;
    for entry in std::fs::read_dir(worked).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|end| end != "bicinium") {
            continue;
        }
        let text = std::fs::read_to_string(&path).unwrap();
        let snapshot = Sheet::new(&text, Arc::default()).snapshot();
        for (number, _, exercise) in snapshot.exercises() {
            let score = exported(exercise);
            let import = import::read(&score).unwrap();
            let setting = &exercise.score.setting;
            let task = Task { species: setting.species, cantus: setting.cantus };
            let written = sheet(&import, task);
            // A hole is exported as a rest with a question mark above it.
            let has_holes = has_holes(exercise);
            let remarks: Vec<_> = import.remarks.iter().map(|it| it.what.as_str()).collect();
            assert_eq!(written.unwritten, Vec::new());
            assert!(
                remarks.iter().all(|what| has_holes && what.starts_with("words")),
                "{remarks:?}"
            );
            let again = Sheet::new(&written.text, Arc::default()).snapshot();
            let again = again.exercises().next().unwrap().2.clone();
            let name = format!("{} {number}\n{}", path.display(), written.text);
            assert_eq!(notes(&again), notes(exercise), "{name}");
            let (there, back) = (String::from_utf8(score), String::from_utf8(exported(&again)));
            assert!(has_holes || there == back, "{name}");
            compared += usize::from(!has_holes);
        }
    }
    assert!(compared >= 90, "only {compared}");
}

//! There and back: every sheet that there is, exported as a score, imported as a sheet and judged again has
//! the same notes, and its export is the same.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use bicinium::features::importing::{Task, sheet};
use bicinium_analysis::score::{Event, Sound, VoiceId};
use bicinium_analysis::{Exercise, Sheet};
use bicinium_export::{import, musicxml};
use bicinium_tests::sheets;
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

/// Whether a silence is written as several rests, as many as its lengths need: a score has no one way.
fn has_rests_in_a_row(exercise: &Exercise) -> bool {
    let is_rest = |event: &Event| event.sound == Sound::Rest;
    let in_a_row = |two: &[Event]| two.iter().all(is_rest);
    VoiceId::BOTH.into_iter().any(|it| exercise.score.lines[it].events.windows(2).any(in_a_row))
}

fn exported(exercise: &Exercise) -> Vec<u8> {
    let mut score = Vec::new();
    musicxml::write(exercise, &[], &[], &mut score).unwrap();
    score
}

/// Beats that no note divides, and notes so short that few bars have them.
const ODD: &str = "\
exercise
  meter 5/8
  alto | A4 - - - B4 | C5 D5 (E5 F5) F5 - | (C4 (D4 (E4 F4))) - - (- E4) C4 |
  bass | A2 | - - C3 - - | C3 D3 E3 F3 G3 |

exercise
  meter 7/4
  alto | A4 - - - B4 - (A4 G4) | C5 |
  bass | A2 | C3 D3 E3 F3 (G3 (A3 B3)) C3 C3 |

exercise
  meter 9/8
  alto | A4 - B4 C5 - (B4 A4) G4 A4 B4 | C5 |
  bass | A2 - - | (C3 D3) E3 F3 |
";

#[test]
fn every_sheet_comes_back() {
    let mut compared = 0;
    let odd = sheets::Sheet { place: "odd".to_owned(), text: ODD.to_owned() };
    for kept in sheets::all().into_iter().chain([odd]) {
        let snapshot = Sheet::new(&kept.text, Arc::default()).snapshot();
        for (number, _, exercise) in snapshot.exercises() {
            let score = exported(exercise);
            let import = import::read(&score).unwrap();
            let setting = &exercise.score.setting;
            let task = Task { species: setting.species, cantus: setting.cantus };
            let written = sheet(&import, task);
            // A hole is exported as a rest with a question mark above it.
            let has_holes = has_holes(exercise);
            let remarks: Vec<_> = import.remarks.iter().map(|it| it.what.as_str()).collect();
            assert_eq!(written.unwritten, Vec::new(), "{}\n{}", kept.place, kept.text);
            assert!(
                remarks.iter().all(|what| has_holes && what.starts_with("words")),
                "{remarks:?}"
            );
            let again = Sheet::new(&written.text, Arc::default()).snapshot();
            let again = again.exercises().next().unwrap().2.clone();
            let name = format!("{} {number}\n{}", kept.place, written.text);
            assert_eq!(notes(&again), notes(exercise), "{name}");
            let (there, back) = (String::from_utf8(score), String::from_utf8(exported(&again)));
            let is_whole = !has_holes && ![exercise, &again].into_iter().any(has_rests_in_a_row);
            assert!(!is_whole || there == back, "{name}");
            compared += usize::from(is_whole);
        }
    }
    assert!(compared > 400, "only {compared}");
}

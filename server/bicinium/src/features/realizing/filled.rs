//! An exercise with a way to fill it written in, judged. Knows no text: what is written in stands
//! where it was open.

use bicinium_analysis::Exercise;
use bicinium_analysis::judge::Heard;
use bicinium_analysis::score::{Event, Sound, VoiceId};
use bicinium_realizer::{Realization, completed};

use super::choices::Choice;
use super::places::Open;

/// The exercise as it is in one of the ways to fill it.
pub(super) fn filled(exercise: &Exercise, way: &Realization) -> Exercise {
    let mut score = completed(&exercise.score);
    for voice in VoiceId::BOTH {
        let notes: Vec<_> = way.notes(voice).collect();
        let events = &mut score.lines[voice].events;
        let written = |event: &Event| {
            let stays_open = way.leaves_open(voice, &(event.onset..event.end()));
            if stays_open { vec![event.clone()] } else { in_place_of(event, &notes) }
        };
        *events = events.iter().flat_map(written).collect();
    }
    exercise.rewritten(score)
}

/// The exercise with one of the choices written into an open place.
pub fn with_choice(exercise: &Exercise, open: &Open, choice: &Choice) -> Exercise {
    let mut score = exercise.score.clone();
    let events = &mut score.lines[open.voice].events;
    let written = |event: &Event| {
        let is_here = event.onset == open.onset;
        if is_here { in_place_of(event, &choice.notes) } else { vec![event.clone()] }
    };
    *events = events.iter().flat_map(written).collect();
    exercise.rewritten(score)
}

/// What stands where something was open: the notes that begin there, after a rest if the first is late.
/// What is held from there belongs to the last of them.
fn in_place_of(event: &Event, notes: &[Heard]) -> Vec<Event> {
    if event.sound == Sound::Held {
        return Vec::new();
    }
    if !event.is_open() {
        let longer = notes.iter().find(|it| it.onset == event.onset).map(|it| it.duration);
        return vec![Event { duration: longer.unwrap_or(event.duration), ..event.clone() }];
    }
    let range = event.range;
    let inside = notes.iter().filter(|it| (event.onset..event.end()).contains(&it.onset));
    let notes: Vec<_> = inside
        .map(|it| Event {
            onset: it.onset,
            duration: it.duration,
            sound: Sound::Note(it.pitch),
            range,
        })
        .collect();
    let late = notes.first().map(|first| first.onset).filter(|onset| *onset > event.onset);
    let is_opening = event.onset == bicinium_theory::Duration::ZERO;
    let rest = late.filter(|_| is_opening).map(|onset| Event {
        duration: onset - event.onset,
        sound: Sound::Rest,
        ..event.clone()
    });
    rest.into_iter().chain(notes).collect()
}

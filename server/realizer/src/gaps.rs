//! The holes of an exercise, and the moments around them with what is fixed. Knows lengths, not
//! pitches.

use bicinium_analysis::judge::{Heard, Moment, Stroke, moments};
use bicinium_analysis::score::{Event, Pair, Score, Sound, VoiceId};
use bicinium_theory::{Duration, Pitch};

/// A note that is still to be chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Hole {
    /// The voice.
    pub voice: VoiceId,
    /// When it begins, from the start of the exercise.
    pub onset: Duration,
    /// How long it lasts.
    pub duration: Duration,
}

/// A moment with what each voice does in it, as far as that is fixed.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Slot {
    pub(crate) onset: Duration,
    pub(crate) parts: Pair<Part>,
}

/// What a voice does at a moment.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Part {
    /// What is written.
    Fixed(Stroke),
    /// A note begins that is still to be chosen.
    Free(Hole),
}

impl Hole {
    /// The hole, filled.
    pub(crate) fn filled(self, pitch: Pitch) -> Stroke {
        Stroke::Strikes(Heard { pitch, onset: self.onset, duration: self.duration })
    }
}

/// The moments of a score, with its holes.
pub(crate) fn slots(score: &Score) -> Vec<Slot> {
    moments(score).iter().map(|moment| slot(score, moment)).collect()
}

/// The holes of all slots, in order of time, the upper voice first.
pub(crate) fn holes(slots: &[Slot]) -> Vec<Hole> {
    let parts = slots.iter().flat_map(|slot| VoiceId::BOTH.map(|voice| slot.parts[voice]));
    let free = parts.filter_map(|part| match part {
        Part::Free(hole) => Some(hole),
        Part::Fixed(_) => None,
    });
    free.collect()
}

fn slot(score: &Score, moment: &Moment) -> Slot {
    let part = |voice: VoiceId| match score.lines[voice].sounding_at(moment.onset) {
        Some(&Event { sound: Sound::Hole, onset, duration, .. }) if onset == moment.onset => {
            Part::Free(Hole { voice, onset, duration })
        }
        Some(Event { sound: Sound::Hole, .. }) => Part::Fixed(Stroke::Holds),
        _ => Part::Fixed(moment.strokes[voice]),
    };
    Slot { onset: moment.onset, parts: Pair::from_fn(part) }
}

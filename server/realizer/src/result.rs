//! What is answered: how many ways there are, what each open place may still become, the best ways,
//! and where none is left. Plain data; decides nothing.

use std::ops::Range;

use bicinium_analysis::judge::{Heard, Moment, Stroke};
use bicinium_analysis::score::VoiceId;
use bicinium_theory::{Duration, Pitch};
use num_bigint::BigUint;

/// Whether an answer is whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Extent {
    /// It is.
    All,
    /// The budget was used up before everything was tried; what is said holds, and there may be
    /// more.
    AtLeast,
}

impl Extent {
    /// Whole only if both are.
    pub(crate) fn and(self, other: Self) -> Self {
        match (self, other) {
            (Self::All, Self::All) => Self::All,
            _ => Self::AtLeast,
        }
    }
}

/// How many ways there are.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Count {
    /// As many as were found.
    pub number: BigUint,
    /// Whether these are all.
    pub extent: Extent,
}

/// A place at which a note is to be chosen, and the pitches it may have.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Opening {
    /// The voice.
    pub voice: VoiceId,
    /// When the note begins, from the start of the exercise.
    pub onset: Duration,
    /// What may begin there, the best first.
    pub viable: Vec<Viable>,
}

/// A note from which the end can be reached.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Viable {
    /// When it begins, from the start of the exercise.
    pub onset: Duration,
    /// The pitch.
    pub pitch: Pitch,
    /// How long the note lasts in the best way.
    pub duration: Duration,
    /// The best way.
    pub way: Realization,
}

/// One way to fill all that is open.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Realization {
    /// How much resistance it meets; the least is the best.
    pub resistance: u32,
    /// What both voices do, from the beginning to the end.
    pub moments: Vec<Moment>,
}

impl Realization {
    /// The note that a voice begins at an instant.
    pub fn note(&self, voice: VoiceId, onset: Duration) -> Option<Heard> {
        let index = self.moments.binary_search_by_key(&onset, |moment| moment.onset).ok()?;
        self.moments[index].struck(voice)
    }

    /// Whether nothing is written for a voice in a stretch of time: what is open there was not to be filled,
    /// or could not be.
    pub fn leaves_open(&self, voice: VoiceId, time: &Range<Duration>) -> bool {
        let inside = self.moments.iter().filter(|moment| time.contains(&moment.onset));
        let mut strokes = inside.map(|moment| moment.strokes[voice]).peekable();
        strokes.peek().is_some() && strokes.all(|stroke| stroke == Stroke::Unknown)
    }

    /// The notes of a voice, in order.
    pub fn notes(&self, voice: VoiceId) -> impl Iterator<Item = Heard> {
        self.moments.iter().filter_map(move |moment| moment.struck(voice))
    }
}

/// Ways that were found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Found<T> {
    /// What was found.
    pub found: Vec<T>,
    /// Whether that is all that was asked for.
    pub extent: Extent,
}

impl<T> Found<T> {
    /// Nothing, because the budget was used up.
    pub(crate) fn nothing() -> Self {
        Self { found: Vec::new(), extent: Extent::AtLeast }
    }
}

/// A stretch that cannot be joined, whatever stands outside it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DeadEnd {
    /// Its first bar, counted from 0.
    pub first: u32,
    /// Its last bar.
    pub last: u32,
    /// The moment that no way passes.
    pub onset: Duration,
    /// The rules that close it between them: if one of them gave way, it could be joined. Where no single
    /// rule would do, those that close its last moment.
    pub rules: Vec<&'static str>,
}

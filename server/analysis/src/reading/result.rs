//! A reading as it is told: stretches of harmony with what else they could be, and the function of
//! every note. Plain data; decides nothing.

use std::sync::Arc;

use bicinium_theory::{Duration, Member, Numeral};

use super::figure::{Entry, Failure, Link, Offence, Shape};
use super::suspension::SuspensionKind;
use super::vocabulary::{HarmonyId, Vocabulary};
use crate::judge::Heard;
use crate::score::{Pair, VoiceId};

/// How an exercise is heard.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// The harmonies that could be heard.
    pub vocabulary: Arc<Vocabulary>,
    /// The harmonies in order, at most one for a bar or for a part of it; none for a bar of which
    /// nothing is written, and none at all where the school implies no harmony.
    pub stretches: Vec<Stretch>,
    /// What every note does, in order of onset.
    pub functions: Pair<Vec<NoteFunction>>,
}

/// A bar, or a part of it, and the harmony it stands for.
#[derive(Clone, Debug, PartialEq)]
pub struct Stretch {
    /// When it begins.
    pub onset: Duration,
    /// When it ends.
    pub end: Duration,
    /// The harmony, with the figures of what first stands in the bass.
    pub numeral: Numeral,
    /// Its number in the vocabulary.
    pub harmony: HarmonyId,
    /// When the harmony was entered, if it is prolonged from an earlier bar.
    pub prolonged_from: Option<Duration>,
    /// What else it could be, the likeliest first.
    pub alternatives: Arc<[Alternative]>,
}

/// Another harmony that a bar could stand for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Alternative {
    /// The harmony, with the figures of what first stands in the bass.
    pub numeral: Numeral,
    /// Its number in the vocabulary.
    pub harmony: HarmonyId,
    /// How much more far-fetched the best reading with it is, in the units of the rulebook.
    pub margin: u64,
}

/// A note and what it does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NoteFunction {
    /// The note.
    pub note: Heard,
    /// What it does.
    pub function: Function,
}

/// What a note does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Function {
    /// It is a member of the harmony.
    Member(Member),
    /// It makes a consonance, where no harmony is implied.
    Consonance,
    /// It embellishes, and comes to its end.
    Embellishes {
        /// The shape.
        shape: Shape,
        /// How it entered.
        entry: Entry,
        /// Where it came from.
        link: Link,
        /// The note that ends it.
        resolution: Heard,
        /// The kind of suspension, if it is one.
        kind: Option<SuspensionKind>,
    },
    /// It can only embellish; what follows is not written yet.
    Pending(Offence),
    /// It can only embellish, and fails to.
    Fails(Offence, Failure),
    /// It can only embellish, within a figure that fails; that is told at this note, which begins
    /// the figure.
    FailsWith(Offence, Heard),
    /// Nothing can be said.
    Open,
}

/// A figure that skips a third, seen from one of the notes behind the one that begins it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FigureAround {
    /// Its shape.
    pub shape: Shape,
    /// Its first note; `None` if that one is not known.
    pub from: Option<Heard>,
    /// Which of its notes this is, 3 or 4; the second is the one that begins to embellish.
    pub place: usize,
}

impl Reading {
    /// The stretch that an instant lies in.
    pub fn stretch_at(&self, instant: Duration) -> Option<&Stretch> {
        self.stretches.iter().find(|stretch| stretch.onset <= instant && instant < stretch.end)
    }

    /// What the note of a voice that begins at an onset does.
    pub fn function_at(&self, voice: VoiceId, onset: Duration) -> Option<&NoteFunction> {
        let functions = &self.functions[voice];
        let index = functions.binary_search_by_key(&onset, |known| known.note.onset).ok()?;
        functions.get(index)
    }

    /// The fulfilled figure that the note of a voice is the third or fourth note of.
    pub fn figure_around(&self, voice: VoiceId, onset: Duration) -> Option<FigureAround> {
        let functions = &self.functions[voice];
        let index = functions.binary_search_by_key(&onset, |known| known.note.onset).ok()?;
        [2, 1].into_iter().find_map(|back| {
            let begun = functions.get(index.checked_sub(back)?)?;
            begun.skips_a_third_until_after(onset, back + 2)
        })
    }
}

impl NoteFunction {
    fn skips_a_third_until_after(&self, onset: Duration, place: usize) -> Option<FigureAround> {
        match self.function {
            Function::Embellishes {
                shape: shape @ (Shape::Cambiata | Shape::SkippedThird),
                link,
                resolution,
                ..
            } if resolution.onset > onset => Some(FigureAround { shape, from: link.from, place }),
            _ => None,
        }
    }
}

//! What becomes of a note that only embellishes: the shape that it fulfils, or the condition that it
//! fails. Plain data; decides nothing.

use super::{Entry, Link};
use crate::judge::Heard;
use crate::score::VoiceId;

/// A foreign note, how it entered and what became of it.
pub type Told = (Link, Entry, Ending);

/// A foreign note and what became of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Outcome {
    /// The voice.
    pub voice: VoiceId,
    /// The foreign note.
    pub link: Link,
    /// How it entered.
    pub entry: Entry,
    /// What became of it.
    pub ending: Ending,
}

/// What became of a foreign note.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ending {
    /// It was left as its kind demands, for this note.
    Fulfilled(Shape, Heard),
    /// It was not.
    Failed(Failure),
    /// The figure that it belongs to has failed, which is told at this note, the first of it.
    FailsWith(Heard),
}

impl Ending {
    /// What becomes of the further notes of a figure that ends so: one failure is told once, at
    /// the note that begins the figure.
    pub(super) fn for_others(self, first: Heard) -> Self {
        match self {
            Self::Failed(_) => Self::FailsWith(first),
            Self::Fulfilled(..) | Self::FailsWith(_) => self,
        }
    }
}

/// The shape of a fulfilled figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Shape {
    /// By step through, in one direction.
    Passing,
    /// By step away and back.
    Neighbour,
    /// Both neighbours of a note, one after the other.
    DoubleNeighbour,
    /// By step away, a third further, and back by two steps.
    Cambiata,
    /// By step on, a third further, and back by step.
    SkippedThird,
    /// Held over, then down by step.
    Suspension,
    /// Held over, then up by step.
    Retardation,
    /// Between a suspension and its resolution.
    Decoration,
}

/// Which condition a foreign note fails.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Failure {
    /// Nothing may embellish here: every note must stand for itself.
    NotAllowed,
    /// On a strong beat, where the school wants a consonance.
    StrongBeat,
    /// Nothing comes before it that it could come from by step.
    NotPrepared,
    /// It was not reached by step.
    NotReachedByStep(Heard),
    /// On a strong beat, without the same harmony on both sides.
    NotProlonged,
    /// It was left by a leap.
    LeftByLeap(Heard),
    /// It skipped a third, or went over to the other neighbour, and the line did not come back.
    NotBrought(Heard),
    /// It turned back, but not as a neighbour may.
    TurnedBack(Heard),
    /// It was reached and left by step, but a neighbour is not allowed here.
    NeighbourNotAllowed(Heard),
    /// The harmony changed before it found a note of its own.
    HarmonyMoved(Heard),
    /// It was held over and did not go down by step.
    ResolvedUpward(Heard),
    /// It was held over and went down by step to a note that does not stand for itself.
    ResolvedToForeign(Heard),
    /// It was held over, and its resolution was not there when it was due.
    NotInTime(Heard),
    /// It was struck on a weak beat and held over the barline.
    HeldOver,
    /// It is one of more than so many foreign notes in a row.
    TooMany(usize),
    /// It was never left.
    NeverResolved,
}

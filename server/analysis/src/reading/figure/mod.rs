//! What a note does: it stands in the harmony (or, where none is implied, makes a consonance), or
//! it only embellishes, as a passing note, a neighbour or a suspension. A figure is pursued from
//! the note that begins it to the note that ends it, each kind in a file of its own. Knows the note
//! and its neighbours, not rules.

mod accented;
mod admitted;
mod between;
mod held;
mod outcome;
mod pursuit;
mod weak;

use bicinium_theory::{Duration, Interval, Member};

pub use accented::Accented;
pub use admitted::{Admitted, ChangingNotes, Figures, Rising, StrongFigures, WeakFigures};
pub use held::{Due, Held};
pub use outcome::{Ending, Failure, Outcome, Shape, Told};
pub use pursuit::{Follower, Next, Pursuit};
pub use weak::{Origin, Weak};

use crate::judge::{Heard, LineState};

/// What the present note of a voice is taken for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Figure {
    /// Nothing can be said: silence, a hole, or a given note that is not judged.
    #[default]
    Open,
    /// It stands in the harmony as a member, or makes a consonance.
    Stable(Option<Member>),
    /// It only embellishes.
    Foreign(Offence, Entry),
}

/// What keeps a note from standing for itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Offence {
    /// It is dissonant with the other voice.
    Dissonant,
    /// It is consonant with the other voice, or alone, but no note of the harmony.
    Outside,
    /// It is the fifth of the harmony in the bass.
    SixFour,
    /// It is a member of the harmony that may not stand in the bass.
    Misplaced,
}

/// How a foreign note entered.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Entry {
    /// Struck on a weak beat.
    Weak,
    /// Struck on a strong beat, or going on from a note that was.
    Accented,
    /// Held from a beat on which it was stable.
    Held,
    /// Struck between a suspension and its resolution.
    Between,
}

/// One foreign note and where it came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Link {
    /// The note.
    pub note: Heard,
    /// The note it came from; `None` if that one is not known.
    pub from: Option<Heard>,
    /// What keeps it from standing for itself.
    pub offence: Offence,
    /// When it became foreign: at its onset, or later if it was held into it.
    pub at: Duration,
}

impl Figure {
    /// What such a note is to a figure that begins with the next one, given what its voice does.
    pub fn origin(self, state: LineState) -> Origin {
        match self {
            Self::Stable(_) => Origin::Stable,
            Self::Open if state == LineState::Unknown => Origin::Unwritten,
            Self::Open | Self::Foreign(..) => Origin::Doubtful,
        }
    }
}

impl Link {
    /// The shape that the note has if the line goes on to `next` by step.
    fn shape_towards(&self, next: Heard) -> Option<Shape> {
        let Some(from) = self.from else { return Some(Shape::Passing) };
        let entry = Interval::between(from.pitch, self.note.pitch).direction();
        let exit = Interval::between(self.note.pitch, next.pitch).direction();
        if entry == exit {
            Some(Shape::Passing)
        } else {
            (from.pitch == next.pitch).then_some(Shape::Neighbour)
        }
    }
}

/// Whether a line goes to the next degree. An augmented second does so too; that it cannot be sung
/// is another rule's business.
pub(super) fn is_second(interval: Interval) -> bool {
    interval.number() == 2
}

/// Whether two notes are neighbouring degrees.
fn is_second_between(from: Heard, to: Heard) -> bool {
    is_second(Interval::between(from.pitch, to.pitch))
}

//! What a note does: it stands in the harmony (or, where none is implied, makes a consonance), or
//! it only embellishes, as a passing note, a neighbour or a suspension. A figure is pursued from
//! the note that begins it to the note that ends it, each kind in a file of its own. Knows the note
//! and its neighbours, not rules.

mod accented;
mod admitted;
mod between;
mod held;
mod weak;

use bicinium_theory::{Duration, Interval, Member};

pub use accented::Accented;
pub use admitted::{Admitted, ChangingNotes, Figures, Rising, StrongFigures, WeakFigures};
pub use held::{Due, Held};
pub use weak::{Origin, Weak};

use super::vocabulary::HarmonyId;
use crate::judge::Heard;
use crate::score::VoiceId;

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
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
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

/// A figure that has not come to its end.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Pursuit {
    /// Begun on a weak beat.
    Weak(Weak),
    /// Begun on a strong beat.
    Accented(Accented),
    /// Held over into a dissonance.
    Held(Held),
}

/// The note that follows in a pursuit, and how it stands.
#[derive(Clone, Copy, Debug)]
pub struct Follower {
    /// The note.
    pub note: Heard,
    /// What keeps it from standing for itself; `None` if it does.
    pub offence: Option<Offence>,
    /// The harmony it stands in.
    pub harmony: Option<HarmonyId>,
    /// Whether it is the tonic of the key.
    pub is_tonic: bool,
    /// Whether it stands on a strong beat.
    pub is_strong: bool,
}

/// What a pursuit comes to with the next note.
#[derive(Clone, Debug)]
pub enum Next {
    /// The note belongs to the figure, which goes on.
    GoesOn(Box<Pursuit>),
    /// The figure has ended before or with the note: what became of its notes.
    Ends(Vec<Told>),
    /// The figure has ended before the note, and another one, begun since, goes on with it.
    HandsOn(Vec<Told>, Box<Pursuit>),
}

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
    fn for_others(self, first: Heard) -> Self {
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
    /// It was never left.
    NeverResolved,
}

impl Figure {
    /// What such a note is to a figure that begins with the next one.
    pub fn origin(self) -> Origin {
        match self {
            Self::Stable(_) => Origin::Stable,
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

impl Next {
    /// Adds what has come to its end, and gives what goes on.
    pub fn into_parts(self, told: &mut Vec<Told>) -> Option<Box<Pursuit>> {
        match self {
            Self::GoesOn(pursuit) => Some(pursuit),
            Self::Ends(ends) => {
                told.extend(ends);
                None
            }
            Self::HandsOn(ends, pursuit) => {
                told.extend(ends);
                Some(pursuit)
            }
        }
    }
}

impl Follower {
    /// The follower as a link of a chain, where it does not stand for itself.
    fn link(&self, from: Heard) -> Option<Link> {
        let (note, offence) = (self.note, self.offence?);
        Some(Link { note, from: Some(from), offence, at: note.onset })
    }

    fn is_stable(&self) -> bool {
        self.offence.is_none()
    }

    /// Whether it may stand in the midst of a figure: for itself, or on a weak beat.
    fn may_embellish(&self) -> bool {
        self.is_stable() || !self.is_strong
    }
}

impl Pursuit {
    /// What the figure comes to with the next note.
    pub fn follow(&self, next: Follower, figures: Figures) -> Next {
        match self {
            Self::Weak(weak) => weak.follow(next, figures),
            Self::Accented(accented) => accented.follow(next, figures),
            Self::Held(held) => held.follow(next, figures),
        }
    }

    /// What becomes of its notes when it breaks off.
    pub fn break_off(&self, failure: Failure) -> Vec<Told> {
        match self {
            Self::Weak(weak) => weak.ends(Ending::Failed(failure)),
            Self::Accented(accented) => accented.ends(Ending::Failed(failure)),
            Self::Held(held) => held.break_off(failure),
        }
    }

    /// How the notes that it takes in after the first one are entered.
    pub fn entry(&self) -> Entry {
        match self {
            Self::Weak(_) => Entry::Weak,
            Self::Accented(_) => Entry::Accented,
            Self::Held(_) => Entry::Between,
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

//! What a note does: it stands in the harmony (or, where none is implied, makes a consonance), or
//! it only embellishes, as a passing note, a neighbour or a suspension. A figure is followed from
//! the note that begins it to the note that ends it. Knows the note and its neighbours, not rules.
//!
//! # Switches
//! - `weak`: which notes that only embellish may stand on a weak beat; where others stand, there is
//!   none in first species
//!   - `none`: every note makes a consonance (all, in first species)
//!   - `passing`: passing notes (Open Music Theory; Grove 1883; Cherubini 1835; Fux 1725, in second
//!     species)
//!   - `passing-and-neighbours`: passing notes and neighbours (Lavignac 1895; Lehmann 1907; an
//!     older American manual)
//! - `strong`: which may be struck on a strong beat
//!   - `none`: none (Open Music Theory; Fux 1725)
//!   - `within-one-harmony`: passing notes and neighbours within one prolonged harmony (common
//!     practice)

use arrayvec::ArrayVec;
use bicinium_theory::{Direction, Interval, Member};

use super::vocabulary::HarmonyId;
use crate::judge::Heard;
use crate::score::VoiceId;

/// What the present note of a voice is taken for.
#[allow(clippy::large_enum_variant)] // copied by the thousand while searching; a box costs more
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub enum Figure {
    /// Nothing can be said: silence, a hole, or a given note that is not judged.
    #[default]
    Open,
    /// It stands in the harmony as a member, or makes a consonance.
    Stable(Option<Member>),
    /// It only embellishes.
    Foreign(Foreign),
}

/// A note that only embellishes and has not come to its end.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Foreign {
    /// The note.
    pub link: Link,
    /// Foreign notes on strong beats before it that wait for the same end, the first one first.
    pub waiting: ArrayVec<Link, CHAIN_REACH>,
    /// How it entered.
    pub entry: Entry,
    /// The harmony it embellishes.
    pub harmony: Option<HarmonyId>,
    /// Whether it is a fault already, so that nothing more is said of it.
    pub is_settled: bool,
}

/// How many foreign notes may follow each other after one on a strong beat.
pub const CHAIN_REACH: usize = 8;

/// One foreign note and where it came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Link {
    /// The note.
    pub note: Heard,
    /// The note it came from; `None` if that one is not known.
    pub from: Option<Heard>,
    /// What keeps it from standing for itself.
    pub offence: Offence,
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
}

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
}

/// The shape of a fulfilled figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Shape {
    /// By step through, in one direction.
    Passing,
    /// By step away and back.
    Neighbour,
    /// Held over, then down by step.
    Suspension,
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
    /// It was struck on a weak beat and held over the barline.
    HeldOver,
    /// It was never left.
    NeverResolved,
}

/// Which figures a school admits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, serde::Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Figures {
    /// On weak beats.
    pub weak: WeakFigures,
    /// On strong beats.
    pub strong: StrongFigures,
}

/// Which figures may stand on weak beats.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum WeakFigures {
    /// None.
    None,
    /// Passing notes.
    Passing,
    /// Passing notes and neighbours.
    PassingAndNeighbours,
}

/// Which figures may stand on strong beats.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, serde::Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum StrongFigures {
    /// None but suspensions.
    None,
    /// Passing notes and neighbours within one prolonged harmony.
    WithinOneHarmony,
}

/// The note that follows a foreign one, and how it stands.
#[derive(Clone, Copy, Debug)]
pub struct Follower {
    /// The note.
    pub note: Heard,
    /// Whether it stands for itself.
    pub is_stable: bool,
    /// The harmony it stands in.
    pub harmony: Option<HarmonyId>,
}

impl Foreign {
    /// What becomes of the note when another one follows; `None` while it is still under way.
    pub fn leave(&self, next: Follower, figures: Figures) -> Option<Ending> {
        match self.entry {
            Entry::Weak => Some(self.link.leave_weak(next.note, figures)),
            Entry::Accented => self.leave_accented(next),
            Entry::Held => Some(self.link.leave_held(next)),
        }
    }

    fn leave_accented(&self, next: Follower) -> Option<Ending> {
        let way = Interval::between(self.link.note.pitch, next.note.pitch);
        if !is_second(way) {
            return Some(Ending::Failed(Failure::LeftByLeap(next.note)));
        }
        if self.harmony != next.harmony {
            return Some(Ending::Failed(Failure::HarmonyMoved(next.note)));
        }
        let shape = self.link.shape_towards(next.note).unwrap_or(Shape::Passing);
        next.is_stable.then_some(Ending::Fulfilled(shape, next.note))
    }

    /// What became of the note and of all that waited with it.
    pub fn outcomes(&self, voice: VoiceId, ending: Ending) -> impl Iterator<Item = Outcome> + '_ {
        let followers = self.waiting.iter().skip(1).chain([&self.link]);
        let waited = self.waiting.iter().zip(followers).map(move |(link, follower)| {
            let shape = link.shape_towards(follower.note).unwrap_or(Shape::Passing);
            (*link, ending.for_waiting(shape))
        });
        let entry = self.entry;
        waited.chain([(self.link, ending)]).map(move |(link, ending)| Outcome {
            voice,
            link,
            entry,
            ending,
        })
    }
}

impl Ending {
    fn for_waiting(self, shape: Shape) -> Self {
        match self {
            Self::Fulfilled(_, resolution) => Self::Fulfilled(shape, resolution),
            Self::Failed(Failure::HarmonyMoved(note)) => Self::Failed(Failure::HarmonyMoved(note)),
            Self::Failed(_) => Self::Failed(Failure::NeverResolved),
        }
    }
}

impl Link {
    fn leave_weak(&self, next: Heard, figures: Figures) -> Ending {
        let way = Interval::between(self.note.pitch, next.pitch);
        if !is_second(way) {
            return Ending::Failed(Failure::LeftByLeap(next));
        }
        match self.shape_towards(next) {
            Some(Shape::Neighbour) if figures.weak == WeakFigures::Passing => {
                Ending::Failed(Failure::NeighbourNotAllowed(next))
            }
            Some(shape) => Ending::Fulfilled(shape, next),
            None => Ending::Failed(Failure::TurnedBack(next)),
        }
    }

    fn leave_held(&self, next: Follower) -> Ending {
        let way = Interval::between(self.note.pitch, next.note.pitch);
        match (is_second(way), way.direction()) {
            (true, Direction::Down) if next.is_stable => {
                Ending::Fulfilled(Shape::Suspension, next.note)
            }
            (true, Direction::Down) => Ending::Failed(Failure::ResolvedToForeign(next.note)),
            (true, _) => Ending::Failed(Failure::ResolvedUpward(next.note)),
            (false, _) => Ending::Failed(Failure::LeftByLeap(next.note)),
        }
    }

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

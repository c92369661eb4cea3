//! Figures on strong beats: passing notes and neighbours that a prolonged harmony carries, one
//! after the other, until the line comes to a note that stands for itself.

use std::collections::BTreeSet;

use arrayvec::ArrayVec;

use super::{
    Ending, Entry, Failure, Figures, Follower, Link, Next, Offence, Pursuit, Shape, StrongFigures,
    Told,
};
use crate::reading::vocabulary::HarmonyId;

/// How many foreign notes may follow each other, the first of them on a strong beat.
const CHAIN_REACH: usize = 8;

/// A figure begun on a strong beat.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Accented {
    /// The foreign notes so far, in order.
    chain: ArrayVec<Link, CHAIN_REACH>,
    /// How many more there have been that need not be told apart any more.
    forgotten: usize,
    /// The harmony that carries them.
    harmony: Option<HarmonyId>,
}

impl Accented {
    /// The figure that a note begins.
    pub fn new(link: Link, harmony: Option<HarmonyId>) -> Self {
        Self { chain: ArrayVec::from_iter([link]), forgotten: 0, harmony }
    }

    pub(super) fn follow(&self, next: Follower, figures: Figures) -> Next {
        let Some(last) = self.chain.last() else { return Next::Ends(Vec::new()) };
        if !super::is_second_between(last.note, next.note) {
            return self.fails(Failure::LeftByLeap(next.note));
        }
        if figures.strong == StrongFigures::Passing {
            return self.follow_passing(last, next);
        }
        if self.harmony != next.harmony {
            return self.fails(Failure::HarmonyMoved(next.note));
        }
        let Some(link) = next.link(last.note) else {
            let shape = last.shape_towards(next.note).unwrap_or(Shape::Passing);
            return Next::Ends(self.ends(Ending::Fulfilled(shape, next.note)));
        };
        if self.chain.len() + self.forgotten >= CHAIN_REACH {
            return self.fails(Failure::TooMany(CHAIN_REACH));
        }
        let mut chain = self.chain.clone();
        chain.push(link);
        Next::GoesOn(Box::new(Pursuit::Accented(Self { chain, ..*self })))
    }

    /// The same without what does not decide how it goes on or what is wrong if it fails: of the
    /// notes before the last one only what keeps them from standing for themselves.
    #[must_use]
    pub(super) fn in_short(&self) -> Self {
        let Some(last) = self.chain.last() else { return self.clone() };
        let offences: BTreeSet<Offence> =
            self.chain.iter().map(|link| link.offence).filter(|it| *it != last.offence).collect();
        let other = |offence: Offence| Link { offence, from: None, ..*last };
        let mut chain: ArrayVec<Link, CHAIN_REACH> = offences.into_iter().map(other).collect();
        chain.push(*last);
        let forgotten = self.forgotten + self.chain.len() - chain.len();
        Self { chain, forgotten, ..*self }
    }

    /// A passing note goes on in its direction to a note that stands for itself.
    fn follow_passing(&self, last: &Link, next: Follower) -> Next {
        match last.shape_towards(next.note) {
            Some(Shape::Passing) if next.is_stable() => {
                Next::Ends(self.ends(Ending::Fulfilled(Shape::Passing, next.note)))
            }
            Some(Shape::Passing) => self.fails(Failure::NeverResolved),
            Some(_) => self.fails(Failure::NeighbourNotAllowed(next.note)),
            None => self.fails(Failure::TurnedBack(next.note)),
        }
    }

    fn fails(&self, failure: Failure) -> Next {
        Next::Ends(self.ends(Ending::Failed(failure)))
    }

    /// What becomes of all notes of the chain when the last one ends so.
    pub(super) fn ends(&self, ending: Ending) -> Vec<Told> {
        let followers = self.chain.iter().skip(1);
        let waited = self.chain.iter().zip(followers).map(|(link, follower)| {
            let shape = link.shape_towards(follower.note).unwrap_or(Shape::Passing);
            (*link, Entry::Accented, for_waiting(ending, shape))
        });
        let last = self.chain.last().map(|last| (*last, Entry::Accented, ending));
        waited.chain(last).collect()
    }
}

fn for_waiting(ending: Ending, shape: Shape) -> Ending {
    match ending {
        Ending::Fulfilled(_, resolution) => Ending::Fulfilled(shape, resolution),
        Ending::Failed(Failure::HarmonyMoved(_) | Failure::TooMany(_)) | Ending::FailsWith(_) => {
            ending
        }
        Ending::Failed(_) => Ending::Failed(Failure::NeverResolved),
    }
}

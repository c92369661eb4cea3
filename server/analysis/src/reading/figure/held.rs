//! Notes held over into a dissonance: suspensions, plain or decorated, and the leading note that
//! rises. A resolution is due on the next weak main beat; what stands between decorates it.

use arrayvec::ArrayVec;
use bicinium_theory::{Direction, Duration, Interval};

use super::{
    Admitted, Ending, Entry, Failure, Figures, Follower, Link, Next, Offence, Pursuit, Rising,
    Shape,
};
use crate::judge::Heard;

/// How many notes may stand between a suspension and its resolution.
const BETWEEN: usize = 3;

/// A note held over into a dissonance.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Held {
    link: Link,
    due: Due,
    between: ArrayVec<(Heard, Option<Offence>), BETWEEN>,
}

/// When the resolution is due.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Due {
    /// Not before, if something stands between.
    pub earliest: Duration,
    /// Not later.
    pub latest: Duration,
}

impl Held {
    /// The figure that a note begins when it is held into a dissonance.
    pub fn new(link: Link, due: Due) -> Self {
        Self { link, due, between: ArrayVec::new() }
    }

    /// The foreign note.
    pub fn link(&self) -> Link {
        self.link
    }

    pub(super) fn follow(&self, next: Follower, figures: Figures) -> Next {
        let onset = next.note.onset;
        if onset >= self.due.earliest && onset <= self.due.latest && self.is_answer(next, figures) {
            return self.over(Ending::Fulfilled(self.shape(next.note), next.note));
        }
        let is_decorated = figures.decorated == Admitted::Yes && onset < self.due.latest;
        if is_decorated && self.may_stand_between(next) {
            return self.goes_on(next);
        }
        self.give_up(next, figures)
    }

    /// What becomes of its notes when it ends so.
    pub(super) fn ends(&self, ending: Ending) -> Vec<(Link, Entry, Ending)> {
        let mut ends = vec![(self.link, Entry::Held, ending)];
        if let Ending::Fulfilled(_, resolution) = ending {
            let decoration = Ending::Fulfilled(Shape::Decoration, resolution);
            ends.extend(self.foreign_between().map(|link| (link, Entry::Between, decoration)));
        }
        ends
    }

    /// Whether a note resolves the held one: down by step, or up where the school lets a leading
    /// note rise, to a note that stands for itself.
    fn is_answer(&self, next: Follower, figures: Figures) -> bool {
        let way = self.way_to(next.note);
        let is_rising =
            figures.rising == Rising::LeadingNote && next.is_tonic && way == Interval::new(1, 1);
        next.is_stable() && (is_down(way) || is_rising)
    }

    fn way_to(&self, note: Heard) -> Interval {
        Interval::between(self.link.note.pitch, note.pitch)
    }

    fn shape(&self, resolution: Heard) -> Shape {
        match self.way_to(resolution).direction() {
            Direction::Up => Shape::Retardation,
            Direction::Down | Direction::Level => Shape::Suspension,
        }
    }

    /// A note between stands for itself, or is the held note struck again, or a neighbour of the
    /// resolution that has just been heard.
    fn may_stand_between(&self, next: Follower) -> bool {
        let last = self.between.last().map(|(note, _)| *note);
        let is_neighbour =
            |last: Heard| is_down(self.way_to(last)) && super::is_second_between(last, next.note);
        next.note.duration <= Duration::QUARTER
            && (next.is_stable()
                || next.note.pitch == self.link.note.pitch
                || last.is_some_and(is_neighbour))
    }

    fn goes_on(&self, next: Follower) -> Next {
        let mut held = self.clone();
        match held.between.try_push((next.note, next.offence)) {
            Ok(()) => Next::GoesOn(Box::new(Pursuit::Held(held))),
            Err(_) => self.fails(Failure::NotInTime(next.note)),
        }
    }

    /// The note that follows does not belong to the figure: either the resolution has been heard
    /// already, or it has not come.
    fn give_up(&self, next: Follower, figures: Figures) -> Next {
        if let Some(resolution) = self.early_resolution() {
            return self.resolved_early(resolution, next, figures);
        }
        let way = self.way_to(next.note);
        let is_early = self.between.is_empty() && next.note.onset < self.due.earliest;
        if is_early && self.is_answer(next, figures) {
            return self.over(Ending::Fulfilled(self.shape(next.note), next.note));
        }
        self.fails(match way.direction() {
            _ if !self.between.is_empty() => Failure::NotInTime(next.note),
            Direction::Down if is_down(way) && !next.is_stable() => {
                Failure::ResolvedToForeign(next.note)
            }
            Direction::Down if is_down(way) => Failure::NotInTime(next.note),
            Direction::Up if super::is_second(way) => Failure::ResolvedUpward(next.note),
            _ => Failure::LeftByLeap(next.note),
        })
    }

    fn early_resolution(&self) -> Option<Heard> {
        let mut between = self.between.iter();
        let found =
            between.find(|(note, offence)| offence.is_none() && is_down(self.way_to(*note)));
        found.map(|(note, _)| *note)
    }

    /// What stood after the resolution is no decoration any more: a dissonance there has to go on
    /// like any other.
    fn resolved_early(&self, resolution: Heard, next: Follower, figures: Figures) -> Next {
        let mut ends =
            vec![(self.link, Entry::Held, Ending::Fulfilled(self.shape(resolution), resolution))];
        for link in self.foreign_between() {
            let weak = super::Weak::new(link, super::Origin::Stable);
            let after =
                self.between.iter().map(|(note, _)| *note).find(|n| n.onset > link.note.onset);
            let follower = Follower { note: after.unwrap_or(next.note), ..next };
            match weak.follow(follower, figures) {
                Next::Ends(told) => ends.extend(told),
                Next::GoesOn(_) => {
                    ends.extend(weak.ends(Ending::Failed(Failure::LeftByLeap(follower.note))));
                }
            }
        }
        Next::Ends(ends)
    }

    fn foreign_between(&self) -> impl Iterator<Item = Link> + '_ {
        let before =
            std::iter::once(self.link.note).chain(self.between.iter().map(|known| known.0));
        self.between.iter().zip(before).filter_map(|((note, offence), from)| {
            let offence = (*offence)?;
            Some(Link { note: *note, from: Some(from), offence, at: note.onset })
        })
    }

    fn fails(&self, failure: Failure) -> Next {
        self.over(Ending::Failed(failure))
    }

    fn over(&self, ending: Ending) -> Next {
        Next::Ends(self.ends(ending))
    }
}

fn is_down(way: Interval) -> bool {
    super::is_second(way) && way.direction() == Direction::Down
}

//! Notes held over into a dissonance: suspensions, plain or decorated, and the leading note that
//! rises. A resolution is due on the next weak main beat.

use bicinium_theory::{Direction, Duration, Interval};

use super::between::{Between, is_step_down};
use super::{
    Admitted, Ending, Entry, Failure, Figures, Follower, Link, Next, Pursuit, Rising, Shape, Told,
};
use crate::judge::Heard;

/// A note held over into a dissonance.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Held {
    link: Link,
    due: Due,
    between: Between,
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
        Self { link, due, between: Between::new(link.note) }
    }

    /// The foreign note.
    pub fn link(&self) -> Link {
        self.link
    }

    /// Where it is prepared, where it is dissonant, and where notes between have begun.
    pub(super) fn places(&self) -> Vec<Duration> {
        let own = [self.link.note.onset, self.link.at];
        own.into_iter().chain(self.between.onsets()).collect()
    }

    pub(super) fn follow(&self, next: Follower, figures: Figures) -> Next {
        if self.between.is_astray(next.note) {
            return self.between.go_on(self.fails(Failure::NotInTime(next.note)), next, figures);
        }
        if self.due.includes(next.note.onset) && self.is_answer(next, figures) {
            return self.resolves(next.note);
        }
        let is_decorated = figures.decorated == Admitted::Yes && next.note.onset < self.due.latest;
        if is_decorated && self.between.admits(next, self.longest_between()) {
            return self.goes_on(next, figures);
        }
        self.give_up(next, figures)
    }

    /// What becomes of its notes when it breaks off. What stands between is told with it.
    pub(super) fn break_off(&self, failure: Failure) -> Vec<Told> {
        let early = self.between.given_away();
        vec![early.map_or(self.fails(failure), |resolution| self.fulfilled(resolution))]
    }

    /// Whether a note resolves the held one: down by step, or up where the school lets a leading
    /// note rise, to a note that stands for itself.
    fn is_answer(&self, next: Follower, figures: Figures) -> bool {
        let way = self.way_to(next.note);
        let is_rising =
            figures.rising == Rising::LeadingNote && next.is_tonic && way == Interval::new(1, 1);
        next.is_stable() && (is_step_down(self.link.note, next.note) || is_rising)
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

    /// Half the time to the resolution, as a quarter is in 2/2.
    fn longest_between(&self) -> Duration {
        let wait = self.due.earliest - self.link.at;
        wait.divide(2).filter(|half| *half > Duration::ZERO).unwrap_or(Duration::QUARTER)
    }

    fn goes_on(&self, next: Follower, figures: Figures) -> Next {
        match self.between.with(next) {
            Some(between) => Next::GoesOn(Box::new(Pursuit::Held(Self { between, ..*self }))),
            None => self.give_up(next, figures),
        }
    }

    /// The note that follows does not belong to the figure: either the resolution has been heard
    /// already, or it has not come.
    fn give_up(&self, next: Follower, figures: Figures) -> Next {
        let held = match self.between.given_away() {
            Some(resolution) => self.fulfilled(resolution),
            None if next.note.onset < self.due.earliest && self.is_answer(next, figures) => {
                return self.resolves(next.note);
            }
            None => self.fails(self.failure(next)),
        };
        self.between.go_on(held, next, figures)
    }

    fn failure(&self, next: Follower) -> Failure {
        let way = self.way_to(next.note);
        match way.direction() {
            _ if !self.between.is_empty() => Failure::NotInTime(next.note),
            Direction::Down if super::is_second(way) && !next.is_stable() => {
                Failure::ResolvedToForeign(next.note)
            }
            Direction::Down if super::is_second(way) => Failure::NotInTime(next.note),
            Direction::Up if super::is_second(way) => Failure::ResolvedUpward(next.note),
            _ => Failure::LeftByLeap(next.note),
        }
    }

    fn resolves(&self, resolution: Heard) -> Next {
        let held = self.fulfilled(resolution);
        Next::Ends(std::iter::once(held).chain(self.between.decorate(resolution)).collect())
    }

    fn fulfilled(&self, resolution: Heard) -> Told {
        (self.link, Entry::Held, Ending::Fulfilled(self.shape(resolution), resolution))
    }

    fn fails(&self, failure: Failure) -> Told {
        (self.link, Entry::Held, Ending::Failed(failure))
    }
}

impl Due {
    fn includes(self, onset: Duration) -> bool {
        self.earliest <= onset && onset <= self.latest
    }
}

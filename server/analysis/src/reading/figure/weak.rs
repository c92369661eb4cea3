//! Figures on weak beats: passing notes and neighbours, and those that skip a third: the cambiata
//! and its kin, and the double neighbour.

use arrayvec::ArrayVec;
use bicinium_theory::{Direction, Duration, Interval};

use super::{
    Admitted, ChangingNotes, Ending, Entry, Failure, Figures, Follower, Link, Next, Pursuit, Shape,
    Told, WeakFigures,
};
use crate::judge::Heard;

/// How many notes after the first one may be foreign: the third and fourth of a cambiata.
const OTHERS: usize = 2;

/// A figure begun on a weak beat.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Weak {
    /// The note that begins it.
    first: Link,
    /// The foreign notes after it.
    others: ArrayVec<Link, OTHERS>,
    /// Whether the note before it stands for itself.
    origin: Origin,
    course: Course,
}

/// How the note before a figure stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Origin {
    /// For itself.
    Stable,
    /// It is not written.
    Unwritten,
    /// Not for itself, or there is none.
    #[default]
    Doubtful,
}

/// How far a figure has gone.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
enum Course {
    /// One note stands there.
    Begun,
    /// It has skipped a third in its own direction.
    Skipped(Skip),
    /// It stands on the second of two neighbours, and has to return to the note between.
    Crossed(Sides),
}

/// The notes after a third was skipped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
struct Skip {
    /// The note after the third.
    third: Heard,
    /// The first step back.
    fourth: Option<Heard>,
}

/// Two neighbours, and the note they turn around, unless that one is not written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
struct Sides {
    first: Heard,
    second: Heard,
    home: Option<Heard>,
}

impl Sides {
    /// The two neighbours, if they are neighbours of one note.
    fn new(first: Heard, second: Heard, home: Option<Heard>) -> Option<Self> {
        let sides = Self { first, second, home };
        let is_third = Interval::between(first.pitch, second.pitch).number() == 3;
        (is_third && home.is_none_or(|home| sides.surround(home))).then_some(sides)
    }

    fn surround(&self, note: Heard) -> bool {
        let [from, to] = [self.first, self.second].map(|side| {
            let interval = Interval::between(note.pitch, side.pitch);
            super::is_second(interval).then(|| interval.direction())
        });
        from.is_some() && to.is_some() && from != to
    }

    /// Whether a note is the one between.
    fn lead_to(&self, note: Heard) -> bool {
        match self.home {
            Some(home) => note.pitch == home.pitch,
            None => self.surround(note),
        }
    }
}

impl Weak {
    /// The figure that a note begins.
    pub fn new(link: Link, origin: Origin) -> Self {
        Self { first: link, others: ArrayVec::new(), origin, course: Course::Begun }
    }

    /// The figure of two neighbours whose first one stood for itself, and whose second one is the
    /// foreign note; `None` if the notes are not of that kind. The note they turn around may not be
    /// written.
    pub fn crossing(link: Link, home: Option<Heard>) -> Option<Self> {
        let sides = Sides::new(link.from?, link.note, home)?;
        Some(Self { course: Course::Crossed(sides), ..Self::new(link, Origin::Stable) })
    }

    pub(super) fn follow(&self, next: Follower, figures: Figures) -> Next {
        match &self.course {
            Course::Begun => self.leave(next, figures),
            Course::Skipped(skip) => self.come_back(*skip, next, figures),
            Course::Crossed(sides) => self.return_home(*sides, next),
        }
    }

    /// What becomes of its notes when it ends so.
    pub(super) fn ends(&self, ending: Ending) -> Vec<Told> {
        let others = self.others.iter().map(|link| (*link, ending.for_others(self.first.note)));
        let all = std::iter::once((self.first, ending)).chain(others);
        all.map(|(link, ending)| (link, Entry::Weak, ending)).collect()
    }

    fn leave(&self, next: Follower, figures: Figures) -> Next {
        if super::is_second_between(self.first.note, next.note) {
            return self.over(self.by_step(next.note, figures));
        }
        let course = self.skipped(next, figures).or_else(|| self.crossed(next, figures));
        match course {
            Some(course) => self.goes_on(course, next),
            None => self.fails(Failure::LeftByLeap(next.note)),
        }
    }

    fn by_step(&self, next: Heard, figures: Figures) -> Ending {
        match self.first.shape_towards(next) {
            Some(Shape::Neighbour) if !admits_neighbour(figures.weak, self.first.note) => {
                Ending::Failed(Failure::NeighbourNotAllowed(next))
            }
            Some(shape) => Ending::Fulfilled(shape, next),
            None => Ending::Failed(Failure::TurnedBack(next)),
        }
    }

    /// A third further in the direction of the step before.
    fn skipped(&self, next: Follower, figures: Figures) -> Option<Course> {
        let way = Interval::between(self.first.note.pitch, next.note.pitch);
        let came = match self.first.from {
            Some(from) => Interval::between(from.pitch, self.first.note.pitch).direction(),
            None => way.direction(),
        };
        let is_third = way.number() == 3 && way.direction() == came;
        let admits = match figures.changing_notes {
            ChangingNotes::Never => false,
            ChangingNotes::Falling => came == Direction::Down && next.is_stable(),
            ChangingNotes::BothWays => next.is_stable(),
            ChangingNotes::Skipping => next.may_embellish(),
        };
        let is_well_begun = self.origin != Origin::Doubtful && is_third && admits;
        let skip = Skip { third: next.note, fourth: None };
        is_well_begun.then_some(Course::Skipped(skip))
    }

    /// A third back, to the neighbour on the other side.
    fn crossed(&self, next: Follower, figures: Figures) -> Option<Course> {
        let admits = figures.double_neighbour == Admitted::Yes && self.origin != Origin::Doubtful;
        let sides = Sides::new(self.first.note, next.note, self.first.from);
        sides.filter(|_| admits && next.may_embellish()).map(Course::Crossed)
    }

    fn come_back(&self, skip: Skip, next: Follower, figures: Figures) -> Next {
        let last = skip.fourth.unwrap_or(skip.third);
        let back = Interval::between(last.pitch, next.note.pitch);
        let out = Interval::between(self.first.note.pitch, skip.third.pitch).direction();
        if !super::is_second(back) || back.direction() == out || !next.may_embellish() {
            return self.fails(Failure::NotBrought(next.note));
        }
        let may_be_home =
            self.origin == Origin::Unwritten && figures.double_neighbour == Admitted::Yes;
        match (skip.fourth, figures.changing_notes) {
            (None, _) if may_be_home && next.is_stable() => {
                self.arrives(Shape::DoubleNeighbour, next)
            }
            (None, ChangingNotes::Skipping) => self.arrives(Shape::SkippedThird, next),
            (None, _) => {
                let fourth = Some(next.note);
                self.goes_on(Course::Skipped(Skip { fourth, ..skip }), next)
            }
            (Some(_), _) => self.arrives(Shape::Cambiata, next),
        }
    }

    fn return_home(&self, sides: Sides, next: Follower) -> Next {
        if !sides.lead_to(next.note) {
            return self.fails(Failure::NotBrought(next.note));
        }
        self.arrives(Shape::DoubleNeighbour, next)
    }

    fn arrives(&self, shape: Shape, next: Follower) -> Next {
        if next.is_stable() {
            self.over(Ending::Fulfilled(shape, next.note))
        } else {
            self.fails(Failure::NotBrought(next.note))
        }
    }

    fn goes_on(&self, course: Course, next: Follower) -> Next {
        let last = self.others.last().map_or(self.first.note, |link| link.note);
        let mut others = self.others.clone();
        match next.link(last).map_or(Ok(()), |link| others.try_push(link)) {
            Ok(()) => {
                Next::GoesOn(Box::new(Pursuit::Weak(Self { others, course, ..self.clone() })))
            }
            Err(_) => self.fails(Failure::NotBrought(next.note)),
        }
    }

    fn fails(&self, failure: Failure) -> Next {
        self.over(Ending::Failed(failure))
    }

    fn over(&self, ending: Ending) -> Next {
        Next::Ends(self.ends(ending))
    }
}

fn admits_neighbour(weak: WeakFigures, note: Heard) -> bool {
    match weak {
        WeakFigures::None | WeakFigures::Passing => false,
        WeakFigures::PassingAndQuickNeighbours => note.duration <= Duration::QUARTER,
        WeakFigures::PassingAndNeighbours => true,
    }
}

//! What stands between a suspension and its resolution: consonances, the held note struck again,
//! notes that pass, and neighbours of a resolution that has been given away. Knows what each of
//! these notes does, not when the resolution is due.

use arrayvec::ArrayVec;
use bicinium_theory::{Direction, Duration, Interval};

use super::{
    Ending, Entry, Failure, Figures, Follower, Link, Next, Offence, Origin, Pursuit, Shape, Told,
    Weak,
};
use crate::judge::Heard;

/// How many notes may stand between a suspension and its resolution.
const CAPACITY: usize = 3;

/// The notes that follow a held note before its resolution is due.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub(super) struct Between {
    held: Heard,
    notes: ArrayVec<(Heard, Option<Offence>), CAPACITY>,
}

impl Between {
    pub(super) fn new(held: Heard) -> Self {
        Self { held, notes: ArrayVec::new() }
    }

    pub(super) fn is_empty(&self) -> bool {
        self.notes.is_empty()
    }

    /// When its notes begin.
    pub(super) fn onsets(&self) -> impl Iterator<Item = Duration> + '_ {
        self.notes.iter().map(|known| known.0.onset)
    }

    /// The same with one more note; `None` if there are too many.
    pub(super) fn with(&self, next: Follower) -> Option<Self> {
        let mut longer = self.clone();
        longer.notes.try_push((next.note, next.offence)).ok().map(|()| longer)
    }

    /// The resolution, where it has been heard before it is due.
    pub(super) fn given_away(&self) -> Option<Heard> {
        let mut stable = self.notes.iter().filter(|known| known.1.is_none());
        stable.find(|known| is_step_down(self.held, known.0)).map(|known| known.0)
    }

    /// Whether one more note, no longer than `longest`, may stand there. When the resolution has been heard, whatever follows
    /// is judged for itself.
    pub(super) fn admits(&self, next: Follower, longest: Duration) -> bool {
        let last = self.notes.last();
        next.note.duration <= longest
            && (next.is_stable()
                || self.given_away().is_some()
                || self.is_struck_again(next.note)
                || last.is_some_and(|last| super::is_second_between(last.0, next.note)))
    }

    /// Whether the last note is a dissonance that should have passed on to the next one.
    pub(super) fn is_astray(&self, next: Heard) -> bool {
        let last = self.notes.len().checked_sub(1).and_then(|last| self.link(last));
        let must_pass =
            |link: &Link| self.given_away().is_none() && !self.is_struck_again(link.note);
        last.filter(must_pass).is_some_and(|link| loose(link, next).is_some())
    }

    /// What the dissonances do if the note is resolved when it is due.
    pub(super) fn decorate(&self, resolution: Heard) -> impl Iterator<Item = Told> + '_ {
        self.foreign().map(move |link| {
            let failure = if self.is_ornament(link) { None } else { loose(link, resolution) };
            match failure {
                None => (link, Entry::Between, Ending::Fulfilled(Shape::Decoration, resolution)),
                Some(failure) => (link, Entry::Weak, Ending::Failed(failure)),
            }
        })
    }

    /// What the dissonances do if the line goes on without a resolution that is due, after what is
    /// told of the held note: they are figures like all others, and the last may not have ended.
    pub(super) fn go_on(&self, held: Told, next: Follower, figures: Figures) -> Next {
        let mut told = vec![held];
        let mut pursuit: Option<Box<Pursuit>> = None;
        for (index, (note, offence)) in self.notes.iter().enumerate() {
            let follower = Follower { note: *note, offence: *offence, is_strong: false, ..next };
            let known = pursuit.take().map(|known| known.follow(follower, figures));
            pursuit = known.and_then(|known| known.into_parts(&mut told));
            if let (None, Some(link)) = (&pursuit, self.link(index)) {
                pursuit = self.begin(link, held.2, &mut told);
            }
        }
        let pursuit = pursuit.map(|known| known.follow(next, figures));
        match pursuit.and_then(|known| known.into_parts(&mut told)) {
            Some(pursuit) => Next::HandsOn(told, pursuit),
            None => Next::Ends(told),
        }
    }

    fn begin(&self, link: Link, held: Ending, told: &mut Vec<Told>) -> Option<Box<Pursuit>> {
        let from = link.from?;
        if self.is_struck_again(link.note) {
            told.push((link, Entry::Between, self.shared(held)));
            return None;
        }
        if super::is_second_between(from, link.note) {
            let is_stable = self.notes.contains(&(from, None));
            let origin = if is_stable { Origin::Stable } else { Origin::Doubtful };
            return Some(Box::new(Pursuit::Weak(Weak::new(link, origin))));
        }
        told.push((link, Entry::Weak, Ending::Failed(Failure::NotReachedByStep(from))));
        None
    }

    /// What becomes of the held note struck again when this becomes of the held note.
    fn shared(&self, held: Ending) -> Ending {
        match held {
            Ending::Fulfilled(_, resolution) => Ending::Fulfilled(Shape::Decoration, resolution),
            Ending::Failed(_) | Ending::FailsWith(_) => held.for_others(self.held),
        }
    }

    /// Whether a dissonance is the held note struck again, or a neighbour of the resolution.
    fn is_ornament(&self, link: Link) -> bool {
        let is_neighbour = |from: Heard| {
            is_step_down(self.held, from) && super::is_second_between(from, link.note)
        };
        self.is_struck_again(link.note) || link.from.is_some_and(is_neighbour)
    }

    fn is_struck_again(&self, note: Heard) -> bool {
        note.pitch == self.held.pitch
    }

    fn foreign(&self) -> impl Iterator<Item = Link> + '_ {
        (0..self.notes.len()).filter_map(|index| self.link(index))
    }

    fn link(&self, index: usize) -> Option<Link> {
        let (note, offence) = *self.notes.get(index)?;
        let before = index.checked_sub(1).and_then(|before| self.notes.get(before));
        let from = before.map_or(self.held, |known| known.0);
        Some(Link { note, from: Some(from), offence: offence?, at: note.onset })
    }
}

/// Why a dissonance does not pass on to the next note; `None` if it does.
fn loose(link: Link, next: Heard) -> Option<Failure> {
    let from = link.from?;
    if !super::is_second_between(from, link.note) {
        return Some(Failure::NotReachedByStep(from));
    }
    if !super::is_second_between(link.note, next) {
        return Some(Failure::LeftByLeap(next));
    }
    (link.shape_towards(next) != Some(Shape::Passing)).then_some(Failure::TurnedBack(next))
}

/// Whether a line goes down to the next degree.
pub(super) fn is_step_down(from: Heard, to: Heard) -> bool {
    let way = Interval::between(from.pitch, to.pitch);
    super::is_second(way) && way.direction() == Direction::Down
}

//! What can still be seen of one line: its last notes, and what was counted of those before.

use arrayvec::ArrayVec;
use bicinium_theory::{Direction, Interval, Pitch};

use crate::judge::moment::{Heard, Stroke};

/// How many notes of a line are remembered.
const LINE_REACH: usize = 16;

/// What can still be seen of one line.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct LineMemory {
    pub(super) notes: ArrayVec<Heard, LINE_REACH>,
    /// What the voice does at the present moment.
    pub state: LineState,
    /// The present run of notes in one direction.
    pub run: Option<Run>,
    /// How many equal notes stand in a row, the latest included.
    pub equal_notes: u32,
    /// The highest note so far.
    pub highest: Option<Extreme>,
    /// The lowest note so far.
    pub lowest: Option<Extreme>,
    /// How many melodic intervals have been heard, and how many of them were steps or leaps.
    pub moves: Moves,
    /// Whether something of the line is not written, so that nothing can be said of it as a whole.
    pub has_gaps: bool,
}

/// What a voice does at a moment.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum LineState {
    /// It has not begun, rests, or has ended.
    #[default]
    Silent,
    /// It begins a note.
    Striking,
    /// It holds a note.
    Holding,
    /// What it does is not written.
    Unknown,
}

/// Notes that go on in one direction; a note struck again does not end them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Run {
    /// The first note.
    pub from: Heard,
    /// The latest note.
    pub to: Heard,
    /// Upward or downward.
    pub direction: Direction,
    /// Whether it has more than one interval.
    pub is_longer: bool,
}

/// A highest or lowest note, and how often the line has come to it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Extreme {
    /// The note at its first appearance.
    pub first: Heard,
    /// How many times it has been struck.
    pub times: u32,
}

/// A count of melodic intervals.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Moves {
    /// All of them.
    pub all: u32,
    /// Steps among them.
    pub steps: u32,
    /// Leaps among them.
    pub leaps: u32,
}

impl LineMemory {
    /// The latest note, if it is known.
    pub fn last(&self) -> Option<Heard> {
        self.back(0)
    }

    /// The note `count` notes before the latest one.
    pub fn back(&self, count: usize) -> Option<Heard> {
        let index = self.notes.len().checked_sub(count + 1)?;
        self.notes.get(index).copied()
    }

    /// The remembered notes, the latest last.
    pub fn notes(&self) -> &[Heard] {
        &self.notes
    }

    /// The note that sounds at the present moment.
    pub fn sounding(&self) -> Option<Heard> {
        match self.state {
            LineState::Striking | LineState::Holding => self.last(),
            LineState::Silent | LineState::Unknown => None,
        }
    }

    /// The note that begins at the present moment.
    pub fn struck(&self) -> Option<Heard> {
        (self.state == LineState::Striking).then(|| self.last()).flatten()
    }

    /// The melodic interval `count` intervals before the latest one; 0 is the latest.
    pub fn interval(&self, count: usize) -> Option<Interval> {
        Some(Interval::between(self.back(count + 1)?.pitch, self.back(count)?.pitch))
    }

    /// As [`Memory::goes_on_as`](super::Memory::goes_on_as), for one line: highest and lowest note and
    /// the count of moves may differ, but not whether there has been any.
    pub(super) fn goes_on_as(&self, other: &Self) -> bool {
        let seen = |line: &Self| {
            (line.state, line.run, line.equal_notes, line.moves.all == 0, line.has_gaps)
        };
        seen(self) == seen(other) && self.notes == other.notes
    }

    pub(super) fn advance(&mut self, stroke: Stroke) {
        match stroke {
            Stroke::Strikes(note) => self.strike(note),
            Stroke::Holds => self.state = LineState::Holding,
            Stroke::Rests => self.fall_silent(),
            Stroke::Unknown => self.lose_sight(),
            Stroke::Ended => self.state = LineState::Silent,
        }
    }

    fn strike(&mut self, note: Heard) {
        if let Some(last) = self.last() {
            self.count_move(last, note);
        } else {
            self.equal_notes = 1;
        }
        self.come_to(note);
        if self.notes.is_full() {
            self.notes.remove(0);
        }
        self.notes.push(note);
        self.state = LineState::Striking;
    }

    /// Counts anew what is counted since the beginning, given all that the voice has done.
    pub(super) fn recount(&mut self, strokes: impl Iterator<Item = Stroke>) {
        (self.highest, self.lowest, self.moves) = (None, None, Moves::default());
        let mut last: Option<Heard> = None;
        for stroke in strokes {
            match stroke {
                Stroke::Strikes(note) => {
                    if let Some(last) = last.replace(note) {
                        self.moves.count(Interval::between(last.pitch, note.pitch));
                    }
                    self.come_to(note);
                }
                Stroke::Rests | Stroke::Unknown => last = None,
                Stroke::Holds | Stroke::Ended => {}
            }
        }
    }

    fn come_to(&mut self, note: Heard) {
        self.highest = Some(extreme(self.highest, note, |new, old| new > old));
        self.lowest = Some(extreme(self.lowest, note, |new, old| new < old));
    }

    fn count_move(&mut self, last: Heard, note: Heard) {
        let interval = Interval::between(last.pitch, note.pitch);
        self.moves.count(interval);
        self.equal_notes = if interval.is_unison() { self.equal_notes + 1 } else { 1 };
        self.run = Run::continued(self.run, last, note);
    }

    fn fall_silent(&mut self) {
        self.notes.clear();
        self.run = None;
        self.equal_notes = 0;
        self.state = LineState::Silent;
    }

    fn lose_sight(&mut self) {
        self.fall_silent();
        self.has_gaps = true;
        self.state = LineState::Unknown;
    }
}

impl Moves {
    fn count(&mut self, interval: Interval) {
        self.all += 1;
        self.steps += u32::from(interval.is_step());
        self.leaps += u32::from(interval.is_leap());
    }
}

impl Run {
    fn continued(run: Option<Self>, last: Heard, note: Heard) -> Option<Self> {
        let interval = Interval::between(last.pitch, note.pitch);
        let direction = interval.direction();
        if direction == Direction::Level {
            return run.map(|run| Self { to: note, ..run });
        }
        match run {
            Some(run) if run.direction == direction => {
                Some(Self { to: note, is_longer: true, ..run })
            }
            _ => Some(Self { from: last, to: note, direction, is_longer: false }),
        }
    }

    /// The interval between its outer notes.
    pub fn frame(&self) -> Interval {
        Interval::between(self.from.pitch, self.to.pitch)
    }
}

fn extreme(old: Option<Extreme>, note: Heard, beats: impl Fn(Pitch, Pitch) -> bool) -> Extreme {
    match old {
        Some(old) if old.first.pitch == note.pitch => Extreme { times: old.times + 1, ..old },
        Some(old) if !beats(note.pitch, old.first.pitch) => old,
        _ => Extreme { first: note, times: 1 },
    }
}

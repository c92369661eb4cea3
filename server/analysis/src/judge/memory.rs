//! What can still be seen of the notes at a moment: the last notes of each line, the last
//! simultaneities, and a few counters. A memory is advanced moment by moment and forgets what no
//! rule can ask for. It knows no rules and no harmony. What is not written yet leaves a gap: the
//! memory starts afresh behind it, so that nothing is concluded across a hole.

use arrayvec::ArrayVec;
use bicinium_theory::{Direction, Duration, Interval, PerfectClass, Pitch};

use super::moment::{Heard, Moment, Stroke};
use crate::score::{Pair, VoiceId};

/// How many notes of a line are remembered.
pub const LINE_REACH: usize = 16;
/// How many moments are remembered.
pub const PAIR_REACH: usize = 17;

/// What can still be seen of both voices.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Memory {
    /// The line of each voice.
    pub lines: Pair<LineMemory>,
    /// The voices together.
    pub pair: PairMemory,
}

/// What can still be seen of one line.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct LineMemory {
    notes: ArrayVec<Heard, LINE_REACH>,
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
    /// How many intervals it has.
    pub intervals: u32,
    /// How many of them are leaps.
    pub leaps: u32,
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

/// What can still be seen of the voices together.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct PairMemory {
    moments: ArrayVec<(Duration, Option<Sounded>), PAIR_REACH>,
}

/// Two notes that sound together from a moment on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Sounded {
    /// The moment.
    pub onset: Duration,
    /// The notes; one of them may have begun earlier.
    pub notes: Pair<Heard>,
}

impl Memory {
    /// The memory after one more moment.
    #[must_use]
    pub fn after(&self, now: &Moment) -> Self {
        let mut next = self.clone();
        for voice in VoiceId::BOTH {
            next.lines[voice].advance(now.strokes[voice]);
        }
        let sounded = Sounded::of(&next.lines, now.onset);
        next.pair.push(now.onset, sounded);
        next
    }
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

    fn advance(&mut self, stroke: Stroke) {
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
        self.highest = Some(extreme(self.highest, note, |new, old| new > old));
        self.lowest = Some(extreme(self.lowest, note, |new, old| new < old));
        if self.notes.is_full() {
            self.notes.remove(0);
        }
        self.notes.push(note);
        self.state = LineState::Striking;
    }

    fn count_move(&mut self, last: Heard, note: Heard) {
        let interval = Interval::between(last.pitch, note.pitch);
        self.moves.all += 1;
        self.moves.steps += u32::from(interval.is_step());
        self.moves.leaps += u32::from(interval.is_leap());
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

impl Run {
    fn continued(run: Option<Self>, last: Heard, note: Heard) -> Option<Self> {
        let interval = Interval::between(last.pitch, note.pitch);
        let direction = interval.direction();
        if direction == Direction::Level {
            return run.map(|run| Self { to: note, ..run });
        }
        let leaps = u32::from(interval.is_leap());
        let fresh = Self { from: last, to: note, direction, intervals: 1, leaps };
        match run {
            Some(run) if run.direction == direction => Some(Self {
                to: note,
                intervals: run.intervals + 1,
                leaps: run.leaps + leaps,
                ..run
            }),
            _ => Some(fresh),
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

impl PairMemory {
    /// The simultaneity of the present moment, if both voices sound and are known.
    pub fn now(&self) -> Option<Sounded> {
        self.back(0)
    }

    /// The simultaneity `count` moments ago; 0 is the present one.
    pub fn back(&self, count: usize) -> Option<Sounded> {
        let index = self.moments.len().checked_sub(count + 1)?;
        self.moments.get(index)?.1
    }

    /// The simultaneity of the moment at an onset, if it is still remembered.
    pub fn at(&self, onset: Duration) -> Option<Sounded> {
        self.moments.iter().rev().find(|moment| moment.0 == onset)?.1
    }

    /// The latest simultaneities without a gap, the latest first.
    pub fn recent(&self) -> impl Iterator<Item = Sounded> + '_ {
        self.moments.iter().rev().map_while(|moment| moment.1)
    }

    fn push(&mut self, onset: Duration, sounded: Option<Sounded>) {
        if self.moments.is_full() {
            self.moments.remove(0);
        }
        self.moments.push((onset, sounded));
    }
}

impl Sounded {
    fn of(lines: &Pair<LineMemory>, onset: Duration) -> Option<Self> {
        let upper = lines.upper.sounding()?;
        let lower = lines.lower.sounding()?;
        Some(Self { onset, notes: Pair { upper, lower } })
    }

    /// The interval from the lower voice up to the upper one; directed downward where they cross.
    pub fn interval(&self) -> Interval {
        Interval::between(self.notes.lower.pitch, self.notes.upper.pitch)
    }

    /// The size of the interval within the octave, 1 for unisons and octaves.
    pub fn simple_number(&self) -> u16 {
        (self.interval().number() - 1) % 7 + 1
    }

    /// The perfect consonance between the voices, if it is one.
    pub fn perfect(&self) -> Option<PerfectClass> {
        self.interval().perfect_class()
    }

    /// Whether a voice begins its note at this moment.
    pub fn strikes(&self, voice: VoiceId) -> bool {
        self.notes[voice].onset == self.onset
    }

    /// Whether a voice begins a note at this moment.
    pub fn is_struck(&self) -> bool {
        VoiceId::BOTH.into_iter().any(|voice| self.strikes(voice))
    }

    /// The voice that sounds lower; the lower voice of the page on a unison.
    pub fn bass(&self) -> VoiceId {
        if self.notes.upper.pitch < self.notes.lower.pitch {
            VoiceId::Upper
        } else {
            VoiceId::Lower
        }
    }
}

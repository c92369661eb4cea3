//! How far back a rule looks. What no rule in force can see any more may be forgotten: two ways of
//! writing that differ in nothing else go on alike. Knows no rules.

/// How far back a rule looks, counted from the moment before the one it judges.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Sight {
    pub(super) notes: u8,
    pub(super) moments: u8,
    pub(super) bars: u8,
    pub(super) perfects: u8,
    traces: u16,
}

/// Something that is remembered beyond single notes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trace {
    /// The outer notes of the present run in one direction.
    Run,
    /// All notes of that run.
    RunNotes,
    /// The highest and the lowest note of a line.
    Extremes,
    /// How many steps and leaps a line has made.
    Moves,
    /// What the notes of past weak beats were taken for, where they made a perfect consonance.
    Functions,
    /// The suspensions of one kind in a row.
    Chains,
    /// All that is remembered at all.
    Memory,
    /// All notes of a given cantus.
    Cantus,
    /// All moments from the beginning.
    Whole,
}

impl Sight {
    /// The last note of each voice and the last simultaneity: what every rule sees.
    pub const LAST: Self = Self { notes: 1, moments: 1, bars: 0, perfects: 0, traces: 0 };
    /// Everything from the beginning.
    pub const WHOLE: Self = Self::of(Trace::Whole);

    /// The latest notes of each line; a note struck again counts as one with that before it.
    pub const fn notes(count: u8) -> Self {
        Self { notes: count, ..Self::LAST }
    }

    /// The latest simultaneities in which a note begins.
    pub fn moments(count: usize) -> Self {
        Self { moments: u8::try_from(count).unwrap_or(u8::MAX), ..Self::LAST }
    }

    /// All that sounds since the beginning of a bar: 1 is that of the latest moment, 2 the one before.
    pub const fn bars(count: u8) -> Self {
        Self { bars: count, ..Self::LAST }
    }

    /// The perfect consonances since the same place so many bars ago.
    pub const fn perfects(bars: u8) -> Self {
        Self { perfects: bars, ..Self::LAST }
    }

    /// Something that is remembered beyond single notes.
    pub const fn of(trace: Trace) -> Self {
        Self { traces: 1 << trace as u16, ..Self::LAST }
    }

    /// All that one or the other sees.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self {
            notes: self.notes.max(other.notes),
            moments: self.moments.max(other.moments),
            bars: self.bars.max(other.bars),
            perfects: self.perfects.max(other.perfects),
            traces: self.traces | other.traces,
        }
    }

    /// Whether it includes a trace.
    pub fn sees(self, trace: Trace) -> bool {
        self.traces & Self::of(trace).traces != 0
    }

    /// Whether nothing that is remembered may be forgotten.
    pub fn sees_all(self) -> bool {
        self.sees(Trace::Memory) || self.sees(Trace::Whole)
    }

    /// Whether another sees at least as much.
    pub fn is_within(self, other: Self) -> bool {
        self.and(other) == other || other.sees(Trace::Whole)
    }
}

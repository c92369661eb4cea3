//! How far back a rule looks. What no rule in force can see any more may be forgotten: two ways of
//! writing that differ in nothing else go on alike. Knows no rules.

/// How far back a rule looks, counted from the moment before the one it judges.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Sight {
    pub(super) notes: u8,
    pub(super) again: u8,
    pub(super) moments: u8,
    pub(super) bars: u8,
    pub(super) perfects: Perfects,
    pub(super) heights: u8,
    traces: u16,
}

/// What a rule asks for in the notes that it sees.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Matter {
    /// Their pitches, and whatever else.
    Pitches,
    /// Only where they begin and how long they last.
    Rhythm,
}

/// Which perfect consonances of the past it sees.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub(super) struct Perfects {
    /// Those on beats since the same place so many bars ago.
    pub(super) on_beats: u8,
    /// Those on the beginnings of so many bars before the next one.
    pub(super) on_downbeats: u8,
    /// Those within so many quarters before the next barline.
    pub(super) before_barlines: u8,
}

/// Something that is remembered beyond single notes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trace {
    /// The latest note of a line where it was first struck, and the note before.
    Turn,
    /// The outer notes of the present run in one direction.
    Run,
    /// All notes of that run.
    RunNotes,
    /// The highest and the lowest note of a line, how often they come, and where first.
    Extremes,
    /// What the notes of past weak beats were taken for, where they made a perfect consonance.
    Functions,
    /// All notes of a figure under way, and not only what decides how it goes on and what is wrong
    /// if it fails.
    Figures,
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
    pub const LAST: Self = Self {
        notes: 1,
        again: 1,
        moments: 1,
        bars: 0,
        perfects: Perfects { on_beats: 0, on_downbeats: 0, before_barlines: 0 },
        heights: 0,
        traces: 0,
    };
    /// Everything from the beginning.
    pub const WHOLE: Self = Self::of(Trace::Whole);

    /// The latest notes of each line.
    pub const fn notes(count: u8) -> Self {
        Self { notes: count, ..Self::LAST }
    }

    /// How often the latest note of each line has been struck, up to so many times.
    pub fn again(times: u32) -> Self {
        Self { again: u8::try_from(times).unwrap_or(u8::MAX), ..Self::LAST }
    }

    /// The latest simultaneities in which a note begins.
    pub fn moments(count: usize) -> Self {
        Self { moments: u8::try_from(count).unwrap_or(u8::MAX), ..Self::LAST }
    }

    /// All that sounds since the beginning of a bar: 1 is that of the latest moment, 2 the one before.
    pub const fn bars(count: u8) -> Self {
        Self { bars: count, ..Self::LAST }
    }

    /// The perfect consonances on beats since the same place so many bars ago.
    pub fn perfects_on_beats(bars: u8) -> Self {
        let perfects = Perfects { on_beats: bars, ..Perfects::default() };
        Self { perfects, ..Self::LAST }
    }

    /// The perfect consonances on the beginnings of so many bars before the next one.
    pub fn perfects_on_downbeats(bars: u8) -> Self {
        let perfects = Perfects { on_downbeats: bars, ..Perfects::default() };
        Self { perfects, ..Self::LAST }
    }

    /// The perfect consonances within so many quarters before the next barline.
    pub fn perfects_before_barlines(quarters: u8) -> Self {
        let perfects = Perfects { before_barlines: quarters, ..Perfects::default() };
        Self { perfects, ..Self::LAST }
    }

    /// The pitches of the highest and the lowest note of a line, and how often the highest comes, up
    /// to so many times. Where they first come only says where something is told.
    pub fn heights(times: u32) -> Self {
        Self { heights: u8::try_from(times).unwrap_or(u8::MAX), ..Self::LAST }
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
            again: self.again.max(other.again),
            moments: self.moments.max(other.moments),
            bars: self.bars.max(other.bars),
            perfects: self.perfects.and(other.perfects),
            heights: self.heights.max(other.heights),
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

impl Perfects {
    fn and(self, other: Self) -> Self {
        Self {
            on_beats: self.on_beats.max(other.on_beats),
            on_downbeats: self.on_downbeats.max(other.on_downbeats),
            before_barlines: self.before_barlines.max(other.before_barlines),
        }
    }
}

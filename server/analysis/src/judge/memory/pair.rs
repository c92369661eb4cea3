//! What can still be seen of the voices together: the last simultaneities.

use arrayvec::ArrayVec;
use bicinium_theory::{Duration, Interval, PerfectClass};

use super::line::LineMemory;
use crate::judge::moment::Heard;
use crate::score::{Pair, VoiceId};

/// How many moments are remembered.
const PAIR_REACH: usize = 17;

/// What can still be seen of the voices together.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct PairMemory {
    pub(super) moments: ArrayVec<(Duration, Option<Sounded>), PAIR_REACH>,
}

/// Two notes that sound together from a moment on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Sounded {
    /// The moment.
    pub onset: Duration,
    /// The notes; one of them may have begun earlier.
    pub notes: Pair<Heard>,
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

    /// When the latest moment was.
    pub(super) fn latest(&self) -> Option<Duration> {
        self.moments.last().map(|moment| moment.0)
    }

    /// The simultaneity of the moment at an onset, if it is still remembered.
    pub fn at(&self, onset: Duration) -> Option<Sounded> {
        self.moments.iter().rev().find(|moment| moment.0 == onset)?.1
    }

    /// The latest simultaneities without a gap, the latest first.
    pub fn recent(&self) -> impl Iterator<Item = Sounded> + '_ {
        self.moments.iter().rev().map_while(|moment| moment.1)
    }

    pub(super) fn push(&mut self, onset: Duration, sounded: Option<Sounded>) {
        if self.moments.is_full() {
            self.moments.remove(0);
        }
        self.moments.push((onset, sounded));
    }
}

impl Sounded {
    pub(super) fn of(lines: &Pair<LineMemory>, onset: Duration) -> Option<Self> {
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

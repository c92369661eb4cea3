//! Kinds of suspensions, by the intervals of the held note and of its resolution, and how many of a
//! kind follow each other. Knows intervals, not rules.

use std::fmt;
use std::str::FromStr;

use bicinium_theory::{Duration, Meter};

use super::figure::{Due, Ending, Outcome, Shape};
use crate::judge::{Memory, Sounded};
use crate::score::{Setting, VoiceId};

/// A kind of suspension: the number of the interval at the dissonance and at the resolution. Written
/// as 7-6; compounds count as simple intervals, but for 9-8, which is no 2-1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct SuspensionKind {
    /// The interval at the dissonance.
    pub from: u16,
    /// The interval at the resolution.
    pub to: u16,
}

/// Suspensions of one kind in neighbouring bars.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Chain {
    /// The kind.
    pub kind: SuspensionKind,
    /// The dissonance of the latest one.
    pub at: Duration,
    /// How many there are.
    pub length: u32,
}

impl SuspensionKind {
    /// The kind that two simultaneities make: the dissonance and its resolution.
    pub fn between(dissonance: Sounded, resolution: Sounded) -> Self {
        let (from, to) = (number(dissonance), number(resolution));
        let octaves = (from.min(to) - 1) / 7;
        let (from, to) = (from - 7 * octaves, to - 7 * octaves);
        // A second over the octave: the resolution is the octave itself, not the unison.
        match (from, to, octaves) {
            (2, 1, 1..) => Self { from: 9, to: 8 },
            _ => Self { from, to },
        }
    }

    /// The kind of a fulfilled suspension, as far as its places are still remembered.
    pub fn of(outcome: &Outcome, memory: &Memory) -> Option<Self> {
        let Ending::Fulfilled(Shape::Suspension | Shape::Retardation, resolution) = outcome.ending
        else {
            return None;
        };
        let places = (memory.pair.at(outcome.link.at)?, memory.pair.at(resolution.onset)?);
        Some(Self::between(places.0, places.1))
    }
}

fn number(sounded: Sounded) -> u16 {
    sounded.interval().abs().number()
}

impl fmt::Display for SuspensionKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}–{}", self.from, self.to)
    }
}

impl FromStr for SuspensionKind {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let numbers = text.split_once('-').map(|(from, to)| (from.parse(), to.parse()));
        match numbers {
            Some((Ok(from), Ok(to))) => Ok(Self { from, to }),
            _ => Err(format!("{text} is no suspension; write two numbers, as in 7-6")),
        }
    }
}

impl Chain {
    /// The chain after one more suspension.
    pub(super) fn after(
        before: Option<Self>,
        kind: SuspensionKind,
        at: Duration,
        bar: Duration,
    ) -> Self {
        let goes_on = before.filter(|chain| chain.kind == kind && chain.at + bar == at);
        Self { kind, at, length: goes_on.map_or(1, |chain| chain.length + 1) }
    }
}

/// Whether the voice of a fulfilled suspension sounds above the other one at its dissonance.
pub fn sounds_above(voice: VoiceId, dissonance: Sounded) -> bool {
    dissonance.bass() != voice
}

/// When a note held into a dissonance at a place has to be resolved: on the next weak main beat, in
/// bars of three on one of the two. A middle of the bar is divided like a bar of its own. Elsewhere
/// a bar is time enough.
pub(super) fn due(setting: &Setting, at: Duration) -> Due {
    let within = setting.within_bar(at);
    let start = at - within;
    weaker_beats(setting.meter, start, at)
        .or_else(|| {
            let half = setting.meter.half()?;
            weaker_beats(half, start + half.bar_length(), at)
        })
        .unwrap_or(Due { earliest: at, latest: at + setting.bar_length() })
}

/// The main beats after the first one, if that stands at a place.
fn weaker_beats(meter: Meter, start: Duration, at: Duration) -> Option<Due> {
    let mut weaker = meter.main_beats().skip(1).filter(|_| start == at);
    let earliest = weaker.next()?;
    let latest = weaker.last().unwrap_or(earliest);
    Some(Due { earliest: at + earliest, latest: at + latest })
}

//! Meter: how long a bar is, where its beats fall and how much they weigh. Knows no notes.

use std::error::Error;
use std::fmt;
use std::str::FromStr;

use crate::Duration;

/// A meter. Build it with [`Meter::new`] or by reading one (`"2/2".parse()`).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
pub struct Meter {
    /// Beats in a bar, 1 to 12: the upper figure.
    pub beats: u8,
    /// What part of a whole note a beat is, 1, 2, 4, 8 or 16: the lower figure.
    pub unit: u8,
}

/// The weight of a place in the bar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Weight {
    /// Neither of the others.
    Weak,
    /// The middle of the bar, where the moving notes divide its halves again.
    Strong,
    /// The beginning of the bar.
    Downbeat,
}

/// Why a text is not a meter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MeterError {
    /// It is not two numbers with a stroke between them.
    Form,
    /// The number of beats is not 1 to 12.
    Beats,
    /// The note value of the beat is not 1, 2, 4, 8 or 16.
    Unit,
}

impl Meter {
    /// The meter of 1 to 12 beats that are each a 1st, 2nd, 4th, 8th or 16th of a whole note.
    pub fn new(beats: u8, unit: u8) -> Option<Self> {
        Self::checked(beats, unit).ok()
    }

    /// The length of a bar.
    pub fn bar_length(self) -> Duration {
        self.beat_length() * self.beats.into()
    }

    /// Whether the bar has three beats, or three times three. Six and twelve are two and four
    /// groups, so they are not.
    pub fn is_triple(self) -> bool {
        matches!(self.beats, 3 | 9)
    }

    /// The weight of a place in the bar among moving notes of the value `unit`.
    ///
    /// Besides the downbeat only the middle of the bar is strong, and only where each half holds
    /// several of the moving notes: the second half of a 2/2 bar is weak among halves, strong among
    /// quarters. Bars with an odd number of beats have no middle. A place past the end is taken as
    /// the same place of a later bar.
    pub fn weight(self, at: Duration, unit: Duration) -> Weight {
        let bar = self.bar_length();
        let place = Duration::from_ticks(at.ticks().checked_rem(bar.ticks()).unwrap_or(0));
        match self.middle() {
            _ if place == Duration::ZERO => Weight::Downbeat,
            Some(middle) if place == middle && unit < middle => Weight::Strong,
            _ => Weight::Weak,
        }
    }

    /// The main beats: where the bar begins, and where it divides into halves, or into thirds in bars
    /// of three and nine. A bar that does neither has only its beginning.
    pub fn main_beats(self) -> impl Iterator<Item = Duration> {
        let parts = match self.middle() {
            Some(_) => 2,
            None if self.is_triple() => 3,
            None => 1,
        };
        let part = self.bar_length().divide(parts);
        part.into_iter().flat_map(move |part| (0..parts).map(move |nth| part * nth))
    }

    /// The meter of half a bar; `None` for bars with an odd number of beats other than one, and for
    /// beats that are too short to be divided.
    pub fn half(self) -> Option<Self> {
        match self.beats {
            1 => Self::new(1, self.unit.checked_mul(2)?),
            beats if beats.is_multiple_of(2) => Self::new(beats / 2, self.unit),
            _ => None,
        }
    }

    /// The beat, counted from 1, in which a place of the bar falls, and how far into the beat it
    /// lies.
    pub fn beat(self, at: Duration) -> (u32, Duration) {
        let beat = self.beat_length().ticks().max(1);
        (at.ticks() / beat + 1, Duration::from_ticks(at.ticks() % beat))
    }

    fn beat_length(self) -> Duration {
        Duration::WHOLE.divide(self.unit.into()).unwrap_or(Duration::ZERO)
    }

    fn middle(self) -> Option<Duration> {
        let divides = self.beats == 1 || self.beats.is_multiple_of(2);
        divides.then(|| self.bar_length().divide(2)).flatten()
    }

    fn checked(beats: u8, unit: u8) -> Result<Self, MeterError> {
        match (beats, unit) {
            (1..=12, 1 | 2 | 4 | 8 | 16) => Ok(Self { beats, unit }),
            (1..=12, _) => Err(MeterError::Unit),
            _ => Err(MeterError::Beats),
        }
    }
}

impl fmt::Display for Meter {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{}", self.beats, self.unit)
    }
}

impl FromStr for Meter {
    type Err = MeterError;

    fn from_str(text: &str) -> Result<Self, MeterError> {
        let (beats, unit) = text.split_once('/').ok_or(MeterError::Form)?;
        Self::checked(
            read_number(beats)?.ok_or(MeterError::Beats)?,
            read_number(unit)?.ok_or(MeterError::Unit)?,
        )
    }
}

impl fmt::Display for MeterError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Form => "a meter is written as two numbers, as in 2/2",
            Self::Beats => "a bar has 1 to 12 beats",
            Self::Unit => "the lower number of a meter is 1, 2, 4, 8 or 16",
        })
    }
}

impl Error for MeterError {}

/// The number that is written, none if it is far too large.
fn read_number(figures: &str) -> Result<Option<u8>, MeterError> {
    let is_number = !figures.is_empty() && figures.bytes().all(|figure| figure.is_ascii_digit());
    let is_padded = figures.len() > 1 && figures.starts_with('0');
    if is_number && !is_padded { Ok(figures.parse().ok()) } else { Err(MeterError::Form) }
}

//! Modes: where in the white-key scale a scale begins. Knows no tonic.

use std::error::Error;
use std::fmt;
use std::str::FromStr;

use crate::{Interval, Letter};

/// The mode of a key. Major has the notes of ionian, minor (in its natural form) those of aeolian.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Mode {
    /// Tonal major.
    Major,
    /// Tonal minor, in its natural form.
    Minor,
    /// As C to C on the white keys.
    Ionian,
    /// As D to D on the white keys.
    Dorian,
    /// As E to E on the white keys.
    Phrygian,
    /// As F to F on the white keys.
    Lydian,
    /// As G to G on the white keys.
    Mixolydian,
    /// As A to A on the white keys.
    Aeolian,
}

/// The word is not the name of a mode.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct ModeError;

impl Mode {
    /// All modes.
    pub const ALL: [Self; 8] = [
        Self::Major,
        Self::Minor,
        Self::Ionian,
        Self::Dorian,
        Self::Phrygian,
        Self::Lydian,
        Self::Mixolydian,
        Self::Aeolian,
    ];

    /// The name in small letters.
    pub fn name(self) -> &'static str {
        match self {
            Self::Major => "major",
            Self::Minor => "minor",
            Self::Ionian => "ionian",
            Self::Dorian => "dorian",
            Self::Phrygian => "phrygian",
            Self::Lydian => "lydian",
            Self::Mixolydian => "mixolydian",
            Self::Aeolian => "aeolian",
        }
    }

    /// Whether the third above the tonic is minor.
    pub fn is_minor_like(self) -> bool {
        self.interval(2).semitones() == 3
    }

    /// The white key on which the mode's scale begins.
    pub(crate) fn white_key_tonic(self) -> Letter {
        match self {
            Self::Major | Self::Ionian => Letter::C,
            Self::Dorian => Letter::D,
            Self::Phrygian => Letter::E,
            Self::Lydian => Letter::F,
            Self::Mixolydian => Letter::G,
            Self::Minor | Self::Aeolian => Letter::A,
        }
    }

    /// The interval from the tonic up to the scale note so many steps above it, 0 to 6.
    pub(crate) fn interval(self, steps: i16) -> Interval {
        let tonic = self.white_key_tonic();
        let note = Letter::from_index(tonic.index() + steps);
        Interval::new(steps, tonic.semitones_up_to(note))
    }
}

impl fmt::Display for Mode {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

impl FromStr for Mode {
    type Err = ModeError;

    fn from_str(text: &str) -> Result<Self, ModeError> {
        Self::ALL.into_iter().find(|mode| mode.name() == text).ok_or(ModeError)
    }
}

impl fmt::Display for ModeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(
            "a mode is major, minor, ionian, dorian, phrygian, lydian, mixolydian or aeolian",
        )
    }
}

impl Error for ModeError {}

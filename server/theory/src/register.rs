//! The registers of voices. Knows their names and order; how far each reaches is for a rulebook to
//! say.

use std::error::Error;
use std::fmt;
use std::str::FromStr;

/// The register of a voice.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Register {
    /// The highest voice.
    Soprano,
    /// Between soprano and alto.
    Mezzo,
    /// The lower of the high voices.
    Alto,
    /// The higher of the low voices.
    Tenor,
    /// Between tenor and bass.
    Baritone,
    /// The lowest voice.
    Bass,
}

/// The word is not the name of a register.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct RegisterError;

impl Register {
    /// All registers from the highest to the lowest.
    pub const ALL: [Self; 6] =
        [Self::Soprano, Self::Mezzo, Self::Alto, Self::Tenor, Self::Baritone, Self::Bass];

    /// The register of a voice that is written below one of this: the second one down, or as near to it as
    /// there is one.
    #[must_use]
    pub fn partner_below(self) -> Self {
        let lower = Self::ALL.into_iter().skip_while(|other| *other != self);
        lower.take(3).last().unwrap_or(self)
    }

    /// The name in small letters.
    pub fn name(self) -> &'static str {
        match self {
            Self::Soprano => "soprano",
            Self::Mezzo => "mezzo",
            Self::Alto => "alto",
            Self::Tenor => "tenor",
            Self::Baritone => "baritone",
            Self::Bass => "bass",
        }
    }
}

impl fmt::Display for Register {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

impl FromStr for Register {
    type Err = RegisterError;

    fn from_str(text: &str) -> Result<Self, RegisterError> {
        Self::ALL.into_iter().find(|register| register.name() == text).ok_or(RegisterError)
    }
}

impl fmt::Display for RegisterError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a voice is soprano, mezzo, alto, tenor, baritone or bass")
    }
}

impl Error for RegisterError {}

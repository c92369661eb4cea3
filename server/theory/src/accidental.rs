//! Accidentals from double flat to double sharp. Knows how they are written; their effect on a note
//! is the pitch's matter.

use std::fmt;

/// An accidental: how many semitones it raises the letter, -2 to 2.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Accidental(i8);

impl Accidental {
    /// Two semitones down.
    pub const DOUBLE_FLAT: Self = Self(-2);
    /// One semitone down.
    pub const FLAT: Self = Self(-1);
    /// The plain letter.
    pub const NATURAL: Self = Self(0);
    /// One semitone up.
    pub const SHARP: Self = Self(1);
    /// Two semitones up.
    pub const DOUBLE_SHARP: Self = Self(2);

    /// An accidental of -2 to 2 semitones; there is no other.
    pub fn new(semitones: i8) -> Option<Self> {
        (-2..=2).contains(&semitones).then_some(Self(semitones))
    }

    /// Semitones up, -2 to 2.
    pub fn value(self) -> i8 {
        self.0
    }

    /// The accidental of so many semitones, if there is one.
    pub(crate) fn from_semitones(semitones: i32) -> Option<Self> {
        i8::try_from(semitones).ok().and_then(Self::new)
    }

    /// The accidental nearest to so many semitones.
    pub(crate) fn nearest(semitones: i32) -> Self {
        Self::from_semitones(semitones.clamp(-2, 2)).unwrap_or(Self::NATURAL)
    }
}

impl fmt::Display for Accidental {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self.0 {
            ..=-2 => "bb",
            -1 => "b",
            0 => "",
            1 => "#",
            2.. => "x",
        })
    }
}

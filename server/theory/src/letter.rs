//! The seven letters of the staff. Knows their order and their distances without accidentals, no
//! octave.

use std::fmt;

/// A note letter, in the order in which octaves are counted: from C up to B.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "a letter says all there is to say")]
pub enum Letter {
    C,
    D,
    E,
    F,
    G,
    A,
    B,
}

impl Letter {
    /// All letters from C to B.
    pub const ALL: [Self; 7] = [Self::C, Self::D, Self::E, Self::F, Self::G, Self::A, Self::B];

    /// Diatonic steps above C, 0 to 6.
    pub fn index(self) -> i16 {
        self as i16
    }

    /// The letter that many diatonic steps above C; any whole number will do, 7 is C again and -1
    /// is B.
    pub fn from_index(index: i16) -> Self {
        Self::ALL[usize::from(index.rem_euclid(7).unsigned_abs())]
    }

    /// Reads a capital letter A to G.
    pub fn from_char(letter: char) -> Option<Self> {
        Self::ALL.into_iter().find(|candidate| candidate.as_char() == letter)
    }

    /// The capital letter.
    pub fn as_char(self) -> char {
        match self {
            Self::C => 'C',
            Self::D => 'D',
            Self::E => 'E',
            Self::F => 'F',
            Self::G => 'G',
            Self::A => 'A',
            Self::B => 'B',
        }
    }

    /// Semitones of the plain letter above C, 0 to 11.
    pub fn semitones(self) -> i16 {
        [0, 2, 4, 5, 7, 9, 11][usize::from(self.index().unsigned_abs())]
    }

    /// Semitones from the plain letter up to the next plain `other`, 0 to 11.
    pub(crate) fn semitones_up_to(self, other: Self) -> i16 {
        (other.semitones() - self.semitones()).rem_euclid(12)
    }
}

impl fmt::Display for Letter {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.as_char())
    }
}

/// Semitones that so many diatonic steps up from C come to on the white keys; negative downward.
pub(crate) fn natural_semitones(steps: i16) -> i32 {
    12 * i32::from(steps.div_euclid(7)) + i32::from(Letter::from_index(steps).semitones())
}

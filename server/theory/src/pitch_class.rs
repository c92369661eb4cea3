//! Spelled note names without an octave, as keys and chords use them. Knows no tuning and no key.

use std::fmt;

use crate::letter::natural_semitones;
use crate::{Accidental, Interval, Letter, Pitch};

/// A spelled note name without octave: F sharp and G flat differ.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PitchClass {
    /// The letter.
    pub letter: Letter,
    /// The accidental before it.
    pub accidental: Accidental,
}

impl PitchClass {
    /// The note name of a letter with an accidental.
    pub const fn new(letter: Letter, accidental: Accidental) -> Self {
        Self { letter, accidental }
    }

    /// The key on the keyboard, 0 (C) to 11 (B); B sharp is 0, C flat is 11.
    pub fn semitone(self) -> i16 {
        (self.letter.semitones() + i16::from(self.accidental.value())).rem_euclid(12)
    }

    /// The note in an octave, 0 to 9.
    pub fn at(self, octave: i8) -> Option<Pitch> {
        Pitch::new(self.letter, self.accidental, octave)
    }

    /// The note name an interval away; none if it would need more than a double accidental.
    pub fn transpose(self, interval: Interval) -> Option<Self> {
        let (letter, alteration) = self.spell(interval);
        Some(Self::new(letter, Accidental::from_semitones(alteration)?))
    }

    /// As [`Self::transpose`], with the nearest accidental where none is large enough.
    pub(crate) fn transpose_nearest(self, interval: Interval) -> Self {
        let (letter, alteration) = self.spell(interval);
        Self::new(letter, Accidental::nearest(alteration))
    }

    /// The letter an interval away, and the semitones by which that letter is altered.
    fn spell(self, interval: Interval) -> (Letter, i32) {
        let from = self.letter.index();
        let to = from.saturating_add(interval.steps());
        let natural = natural_semitones(to) - natural_semitones(from);
        let alteration =
            i32::from(self.accidental.value()) + i32::from(interval.semitones()) - natural;
        (Letter::from_index(to), alteration)
    }
}

impl fmt::Display for PitchClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.letter, self.accidental)
    }
}

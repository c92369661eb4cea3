//! Spelled pitches in scientific pitch notation. Knows their places on the staff, the keyboard and
//! in the air; knows no key and no voice.

use std::cmp::Ordering;
use std::fmt;

use crate::{Accidental, Interval, Letter, PitchClass};

/// A spelled pitch. Octaves are numbered 0 to 9 and begin on C; C4 is middle C (scientific pitch
/// notation, R. W. Young, *Terminology for Logarithmic Frequency Units*, 1939).
///
/// Pitches are ordered by sound, enharmonic ones by their place on the staff.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Pitch {
    class: PitchClass,
    octave: i8,
}

impl Pitch {
    /// The pitch of a letter with an accidental in an octave, 0 to 9. The octave is that of the
    /// letter: B#3 sounds as C4.
    pub fn new(letter: Letter, accidental: Accidental, octave: i8) -> Option<Self> {
        let class = PitchClass::new(letter, accidental);
        (0..=9).contains(&octave).then_some(Self { class, octave })
    }

    /// The pitch at a place of the staff, counted in diatonic steps above C0 (0 to 69), with an
    /// accidental.
    pub fn from_step(step: i16, accidental: Accidental) -> Option<Self> {
        let octave = i8::try_from(step.div_euclid(7)).ok()?;
        Self::new(Letter::from_index(step), accidental, octave)
    }

    /// The letter.
    pub fn letter(self) -> Letter {
        self.class.letter
    }

    /// The accidental.
    pub fn accidental(self) -> Accidental {
        self.class.accidental
    }

    /// The octave number, 0 to 9.
    pub fn octave(self) -> i8 {
        self.octave
    }

    /// The note name without the octave.
    pub fn class(self) -> PitchClass {
        self.class
    }

    /// The MIDI note number: 60 for C4, for B#3 and for Dbb4. From 10 (Cbb0) to 133 (Bx9); standard
    /// MIDI files hold 0 to 127.
    pub fn midi(self) -> i16 {
        let altered = self.letter().semitones() + i16::from(self.accidental().value());
        12 * (i16::from(self.octave) + 1) + altered
    }

    /// The place on the staff in diatonic steps above C0, 0 to 69; C4 is 28.
    pub fn step(self) -> i16 {
        7 * i16::from(self.octave) + self.letter().index()
    }

    /// The frequency in hertz in equal temperament, given that of A4 (440 Hz in ISO 16:1975).
    pub fn frequency(self, a4_hz: f64) -> f64 {
        a4_hz * (f64::from(self.midi() - 69) / 12.0).exp2()
    }

    /// The pitch an interval away; none outside octaves 0 to 9 or if more than a double accidental
    /// were needed.
    pub fn transpose(self, interval: Interval) -> Option<Self> {
        let class = self.class.transpose(interval)?;
        let step = self.step().checked_add(interval.steps())?;
        Self::from_step(step, class.accidental)
    }
}

impl Ord for Pitch {
    fn cmp(&self, other: &Self) -> Ordering {
        self.midi().cmp(&other.midi()).then(self.step().cmp(&other.step()))
    }
}

impl PartialOrd for Pitch {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl fmt::Display for Pitch {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.class, self.octave)
    }
}

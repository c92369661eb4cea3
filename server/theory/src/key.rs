//! Keys: a tonic and a mode, their scale and its degrees. Knows which notes belong, not what may be
//! done with the others.

use std::fmt;

use crate::{Interval, Letter, Mode, PitchClass, ScaleDegree};

/// A key. Build it with [`Key::new`], which sees to it that its notes can be written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
pub struct Key {
    /// The first degree.
    pub tonic: PitchClass,
    /// The mode.
    pub mode: Mode,
}

impl Key {
    /// The key on a tonic in a mode; none if a note of its scale, its leading note or its raised
    /// sixth would need more than a double accidental.
    pub fn new(tonic: PitchClass, mode: Mode) -> Option<Self> {
        let scale = (0..7).map(|steps| mode.interval(steps));
        let writable = scale
            .chain([LEADING_NOTE, RAISED_SIXTH])
            .all(|interval| tonic.transpose(interval).is_some());
        writable.then_some(Self { tonic, mode })
    }

    /// The seven notes of the scale from the tonic up; of minor, the natural form.
    pub fn scale(self) -> [PitchClass; 7] {
        [0, 1, 2, 3, 4, 5, 6].map(|steps| self.above_tonic(self.mode.interval(steps)))
    }

    /// Whether the note, as spelled, is one of the scale.
    pub fn contains(self, note: PitchClass) -> bool {
        self.on_letter_of(note).1 == note
    }

    /// The degree of a note, whether or not it belongs to the scale.
    pub fn degree(self, note: PitchClass) -> ScaleDegree {
        let (steps, own) = self.on_letter_of(note);
        let in_scale = self.mode.interval(steps);
        let alteration = note.accidental.value() - own.accidental.value();
        let number = u8::try_from(steps + 1).unwrap_or(1);
        ScaleDegree::new(number, alteration, in_scale.semitones() + i16::from(alteration))
    }

    /// The note a semitone below the tonic, spelled on the seventh letter; foreign to the scale in
    /// minor, dorian, phrygian, mixolydian and aeolian.
    pub fn leading_note(self) -> PitchClass {
        self.above_tonic(LEADING_NOTE)
    }

    /// The note a major sixth above the tonic; foreign to the scale in minor, phrygian and aeolian.
    pub fn raised_sixth(self) -> PitchClass {
        self.above_tonic(RAISED_SIXTH)
    }

    /// The key signature: the number of sharps, or, negative, of flats. Beyond 7 it stands for
    /// double accidentals.
    pub fn signature(self) -> i8 {
        let tonic = fifths(self.tonic.letter) + 7 * self.tonic.accidental.value();
        tonic - fifths(self.mode.white_key_tonic())
    }

    /// The note of the scale on the letter of another note, and how many steps it lies above the tonic.
    fn on_letter_of(self, note: PitchClass) -> (i16, PitchClass) {
        let steps = (note.letter.index() - self.tonic.letter.index()).rem_euclid(7);
        (steps, self.above_tonic(self.mode.interval(steps)))
    }

    fn above_tonic(self, interval: Interval) -> PitchClass {
        self.tonic.transpose_nearest(interval)
    }
}

const LEADING_NOTE: Interval = Interval::new(6, 11);
const RAISED_SIXTH: Interval = Interval::new(5, 9);

/// Fifths from C up to the plain letter; F lies one below.
fn fifths(letter: Letter) -> i8 {
    match letter {
        Letter::F => -1,
        Letter::C => 0,
        Letter::G => 1,
        Letter::D => 2,
        Letter::A => 3,
        Letter::E => 4,
        Letter::B => 5,
    }
}

impl fmt::Display for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.tonic, self.mode)
    }
}

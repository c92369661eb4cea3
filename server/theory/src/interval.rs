//! Intervals between spelled pitches. Knows size, quality and consonance in two-voice writing,
//! whose fourth is a dissonance; knows no voices and no rule.

use crate::letter::natural_semitones;
use crate::{Pitch, Quality};

/// Which way a line goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Direction {
    /// Downward.
    Down,
    /// Neither: the same pitch again.
    Level,
    /// Upward.
    Up,
}

/// The two classes of perfect consonance.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PerfectClass {
    /// The perfect fifth and its compounds.
    Fifth,
    /// The perfect unison, the octave and its compounds.
    Octave,
}

/// A directed interval: diatonic steps and semitones, both negative when it goes down.
///
/// Names, qualities and consonance are those of the interval taken upward.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Interval {
    steps: i16,
    semitones: i16,
}

impl Interval {
    /// The interval of so many diatonic steps and semitones; (2, 4) is a major third up, (-2, -4)
    /// one down.
    pub const fn new(steps: i16, semitones: i16) -> Self {
        Self { steps, semitones }
    }

    /// The interval that leads from one pitch to another.
    pub fn between(from: Pitch, to: Pitch) -> Self {
        Self::new(to.step() - from.step(), to.midi() - from.midi())
    }

    /// Diatonic steps, 0 for a unison, 7 for an octave; negative downward.
    pub fn steps(self) -> i16 {
        self.steps
    }

    /// Semitones; negative downward.
    pub fn semitones(self) -> i16 {
        self.semitones
    }

    /// The number in the interval's name, 1 or more: 10 for a tenth, up or down.
    pub fn number(self) -> u16 {
        self.steps.unsigned_abs() + 1
    }

    /// The direction on the staff; within one place of the staff, that of the sound.
    pub fn direction(self) -> Direction {
        match (self.steps, self.semitones) {
            (1.., _) | (0, 1..) => Direction::Up,
            (..=-1, _) | (0, ..=-1) => Direction::Down,
            (0, 0) => Direction::Level,
        }
    }

    /// The same interval taken upward.
    #[must_use]
    pub fn abs(self) -> Self {
        match self.direction() {
            Direction::Down => {
                Self::new(self.steps.saturating_neg(), self.semitones.saturating_neg())
            }
            Direction::Level | Direction::Up => self,
        }
    }

    /// The interval taken upward and brought within an octave: a tenth becomes a third, octaves and
    /// unisons stay.
    #[must_use]
    pub fn simple(self) -> Self {
        let up = self.abs();
        let octaves = (up.steps - 1).div_euclid(7).max(0);
        Self::new(
            up.steps - 7 * octaves,
            up.semitones.saturating_sub(12_i16.saturating_mul(octaves)),
        )
    }

    /// Whether it is larger than an octave by name: a ninth or more.
    pub fn is_compound(self) -> bool {
        self.number() > 8
    }

    /// The quality; alterations beyond 255 semitones count as 255.
    pub fn quality(self) -> Quality {
        let up = self.abs();
        let excess = i32::from(up.semitones) - natural_semitones(up.steps);
        if comes_perfect(up.steps) { perfect_kind(excess) } else { major_kind(excess) }
    }

    /// A minor or major second.
    pub fn is_step(self) -> bool {
        self.number() == 2 && matches!(self.quality(), Quality::Minor | Quality::Major)
    }

    /// A third or more, of any quality.
    pub fn is_leap(self) -> bool {
        self.number() >= 3
    }

    /// The perfect unison: the same pitch.
    pub fn is_unison(self) -> bool {
        (self.steps, self.semitones) == (0, 0)
    }

    /// The augmented unison, up or down, as from F to F sharp.
    pub fn is_chromatic_semitone(self) -> bool {
        self.steps == 0 && self.semitones.unsigned_abs() == 1
    }

    /// The class of perfect consonance it belongs to, if any: unison, fifth, octave and their
    /// compounds.
    pub fn perfect_class(self) -> Option<PerfectClass> {
        match (self.quality(), self.steps.unsigned_abs() % 7) {
            (Quality::Perfect, 0) => Some(PerfectClass::Octave),
            (Quality::Perfect, 4) => Some(PerfectClass::Fifth),
            _ => None,
        }
    }

    /// A perfect consonance: unison, fifth, octave and compounds. The fourth is none.
    pub fn is_perfect(self) -> bool {
        self.perfect_class().is_some()
    }

    /// An imperfect consonance: minor and major third and sixth and compounds.
    pub fn is_imperfect(self) -> bool {
        matches!(self.quality(), Quality::Minor | Quality::Major)
            && matches!(self.steps.unsigned_abs() % 7, 2 | 5)
    }

    /// A consonance between two voices, perfect or imperfect.
    pub fn is_consonant(self) -> bool {
        self.is_perfect() || self.is_imperfect()
    }

    /// A dissonance between two voices: seconds, fourths, sevenths, all that is diminished or
    /// augmented.
    pub fn is_dissonant(self) -> bool {
        !self.is_consonant()
    }

    /// An augmented fourth or a diminished fifth; its compounds are not meant.
    pub fn is_tritone(self) -> bool {
        matches!((self.number(), self.semitones.unsigned_abs()), (4 | 5, 6))
    }

    /// Diminished, once or more.
    pub fn is_diminished(self) -> bool {
        matches!(self.quality(), Quality::Diminished(_))
    }

    /// Augmented, once or more.
    pub fn is_augmented(self) -> bool {
        matches!(self.quality(), Quality::Augmented(_))
    }

    /// What is left to the octave: a tenth becomes a third and that a sixth. Octaves become unisons
    /// and unisons octaves; an augmented octave, which leaves less than nothing, is taken as an
    /// augmented unison.
    #[must_use]
    pub fn invert(self) -> Self {
        let simple = self.simple();
        let exceeds_octave = simple.steps == 7 && simple.semitones > 12;
        let within = if exceeds_octave { 0 } else { simple.steps };
        let semitones = if exceeds_octave { simple.semitones - 12 } else { simple.semitones };
        Self::new(7 - within, 12_i16.saturating_sub(semitones))
    }
}

/// Whether intervals of so many steps are perfect (unison, fourth, fifth, compounds) rather than
/// major and minor.
pub(crate) fn comes_perfect(steps: i16) -> bool {
    matches!(steps % 7, 0 | 3 | 4)
}

fn perfect_kind(excess: i32) -> Quality {
    match excess {
        0 => Quality::Perfect,
        1.. => Quality::Augmented(times(excess)),
        ..=-1 => Quality::Diminished(times(excess)),
    }
}

fn major_kind(excess: i32) -> Quality {
    match excess {
        0 => Quality::Major,
        -1 => Quality::Minor,
        1.. => Quality::Augmented(times(excess)),
        ..=-2 => Quality::Diminished(times(excess + 1)),
    }
}

fn times(excess: i32) -> u8 {
    u8::try_from(excess.unsigned_abs()).unwrap_or(u8::MAX)
}

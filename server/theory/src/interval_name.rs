//! The names of intervals: short (`M10`), in words ("major tenth"), and back. Knows no direction:
//! names are undirected.

use std::error::Error;
use std::fmt;
use std::str::FromStr;

use crate::interval::comes_perfect;
use crate::letter::natural_semitones;
use crate::{Interval, Quality};

/// Why a text is not the short name of an interval.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum IntervalError {
    /// It does not begin with P, M, m, d or A, the last two once or more.
    Quality,
    /// The number is missing or not one from 1 to 70.
    Number,
    /// The quality does not go with the number, as in a perfect third.
    Combination,
}

impl Interval {
    /// The name in words: "major tenth", "doubly augmented fourth".
    pub fn words(self) -> String {
        format!("{} {}", self.quality().words(), number_word(self.number()))
    }
}

/// The short name: `M10`, `P5`, `dd5`.
impl fmt::Display for Interval {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.quality(), self.number())
    }
}

/// Reads a short name as an interval upward.
impl FromStr for Interval {
    type Err = IntervalError;

    fn from_str(text: &str) -> Result<Self, IntervalError> {
        let number = text.trim_start_matches(|c: char| c.is_ascii_alphabetic());
        let quality = read_quality(&text[..text.len() - number.len()])?;
        let steps = read_steps(number)?;
        let semitones = natural_semitones(steps) + excess(quality, steps)?;
        let interval = Self::new(steps, semitones.try_into().map_err(|_| IntervalError::Quality)?);
        // A diminished unison would be an augmented one the other way.
        (interval.quality() == quality).then_some(interval).ok_or(IntervalError::Combination)
    }
}

impl fmt::Display for IntervalError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Quality => "an interval begins with P, M, m, d or A, as in P5 or m10",
            Self::Number => "an interval ends with its number from 1 to 70, as in P5 or m10",
            Self::Combination => {
                "unisons, fourths, fifths and octaves are perfect, the others major or minor"
            }
        })
    }
}

impl Error for IntervalError {}

fn read_quality(letters: &str) -> Result<Quality, IntervalError> {
    let times = u8::try_from(letters.len()).map_err(|_| IntervalError::Quality)?;
    match letters.as_bytes() {
        b"P" => Ok(Quality::Perfect),
        b"M" => Ok(Quality::Major),
        b"m" => Ok(Quality::Minor),
        [b'd', rest @ ..] if rest.iter().all(|c| *c == b'd') => Ok(Quality::Diminished(times)),
        [b'A', rest @ ..] if rest.iter().all(|c| *c == b'A') => Ok(Quality::Augmented(times)),
        _ => Err(IntervalError::Quality),
    }
}

fn read_steps(number: &str) -> Result<i16, IntervalError> {
    if number.starts_with('0') || !number.bytes().all(|figure| figure.is_ascii_digit()) {
        return Err(IntervalError::Number);
    }
    match number.parse::<i16>() {
        Ok(number @ 1..=70) => Ok(number - 1),
        _ => Err(IntervalError::Number),
    }
}

/// Semitones by which a quality makes the interval larger than the perfect or major one.
fn excess(quality: Quality, steps: i16) -> Result<i32, IntervalError> {
    match (quality, comes_perfect(steps)) {
        (Quality::Perfect, true) | (Quality::Major, false) => Ok(0),
        (Quality::Minor, false) => Ok(-1),
        (Quality::Augmented(times), _) => Ok(times.into()),
        (Quality::Diminished(times), true) => Ok(-i32::from(times)),
        (Quality::Diminished(times), false) => Ok(-1 - i32::from(times)),
        _ => Err(IntervalError::Combination),
    }
}

fn number_word(number: u16) -> String {
    match number {
        1 => "unison".into(),
        8 => "octave".into(),
        _ => ordinal(number),
    }
}

/// The ordinal in words below a hundred, in figures from there on.
fn ordinal(number: u16) -> String {
    const SMALL: [&str; 20] = [
        "zeroth",
        "first",
        "second",
        "third",
        "fourth",
        "fifth",
        "sixth",
        "seventh",
        "eighth",
        "ninth",
        "tenth",
        "eleventh",
        "twelfth",
        "thirteenth",
        "fourteenth",
        "fifteenth",
        "sixteenth",
        "seventeenth",
        "eighteenth",
        "nineteenth",
    ];
    const TENS: [&str; 8] = ["twent", "thirt", "fort", "fift", "sixt", "sevent", "eight", "ninet"];
    let (tens, ones) = (usize::from(number / 10), usize::from(number % 10));
    match (tens, ones) {
        (0 | 1, _) => SMALL[usize::from(number)].into(),
        (2..=9, 0) => format!("{}ieth", TENS[tens - 2]),
        (2..=9, _) => format!("{}y-{}", TENS[tens - 2], SMALL[ones]),
        _ => format!("{number}th"),
    }
}

//! Writing and reading Roman numerals with figures. Knows the signs; what a numeral means is told
//! in `numeral`.

use std::error::Error;
use std::fmt;
use std::str::FromStr;

use crate::{Inversion, Numeral, TriadQuality};

/// Why a text is not a Roman numeral with figures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum NumeralError {
    /// It does not begin with a numeral from I to VII, all capitals or all small letters.
    Degree,
    /// A diminished sign stands after capitals, or an augmented sign after small letters.
    Quality,
    /// The figures are none of those in use.
    Figures,
}

const NUMERALS: [&str; 7] = ["I", "II", "III", "IV", "V", "VI", "VII"];

/// Figures as written, whether they tell of a seventh, and the inversion they stand for; of several
/// the first is the usual way.
const FIGURES: [(&str, bool, Inversion); 9] = [
    ("", false, Inversion::Root),
    ("5/3", false, Inversion::Root),
    ("6", false, Inversion::First),
    ("6/3", false, Inversion::First),
    ("6/4", false, Inversion::Second),
    ("7", true, Inversion::Root),
    ("6/5", true, Inversion::First),
    ("4/3", true, Inversion::Second),
    ("4/2", true, Inversion::Third),
];

/// The usual way of writing it: `ii6`, `vii°6`, `V6/5`, `III+`.
impl fmt::Display for Numeral {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let capitals = NUMERALS[usize::from(self.degree.clamp(1, 7)) - 1];
        match self.quality {
            TriadQuality::Major => f.write_str(capitals)?,
            TriadQuality::Minor => f.write_str(&capitals.to_lowercase())?,
            TriadQuality::Diminished => write!(f, "{}°", capitals.to_lowercase())?,
            TriadQuality::Augmented => write!(f, "{capitals}+")?,
        }
        f.write_str(figures(*self))
    }
}

impl FromStr for Numeral {
    type Err = NumeralError;

    fn from_str(text: &str) -> Result<Self, NumeralError> {
        let (letters, rest) = split_while(text, |c| matches!(c, 'I' | 'V' | 'i' | 'v'));
        let (signs, figures) = split_while(rest, |c| matches!(c, '°' | 'o' | '+'));
        let triad = Self::triad(read_degree(letters)?, read_quality(letters, signs)?);
        let (_, seventh, inversion) = *FIGURES
            .iter()
            .find(|(written, ..)| *written == figures)
            .ok_or(NumeralError::Figures)?;
        let numeral = triad.ok_or(NumeralError::Degree)?;
        Ok(Self { seventh, inversion, ..numeral })
    }
}

impl fmt::Display for NumeralError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Degree => {
                "a harmony begins with a Roman numeral from I to VII, \
                 capital for major and small for minor"
            }
            Self::Quality => {
                "° (diminished) goes with a small numeral and + (augmented) with a \
                 capital one, as in vii° and III+"
            }
            Self::Figures => {
                "the figures are 6, 6/4, 7, 6/5, 4/3 or 4/2, and none for a triad in root position"
            }
        })
    }
}

impl Error for NumeralError {}

fn figures(numeral: Numeral) -> &'static str {
    let wanted = (numeral.seventh, numeral.inversion);
    FIGURES
        .iter()
        .find(|(_, seventh, inversion)| (*seventh, *inversion) == wanted)
        .map_or("", |(written, ..)| written)
}

fn split_while(text: &str, belongs: impl Fn(char) -> bool) -> (&str, &str) {
    let rest = text.trim_start_matches(belongs);
    text.split_at(text.len() - rest.len())
}

fn read_degree(letters: &str) -> Result<u8, NumeralError> {
    (1..)
        .zip(NUMERALS)
        .find(|(_, capitals)| letters == *capitals || letters == capitals.to_lowercase())
        .map(|(degree, _)| degree)
        .ok_or(NumeralError::Degree)
}

fn read_quality(letters: &str, signs: &str) -> Result<TriadQuality, NumeralError> {
    let capital = letters.starts_with(char::is_uppercase);
    match (capital, signs) {
        (true, "") => Ok(TriadQuality::Major),
        (false, "") => Ok(TriadQuality::Minor),
        (false, "°" | "o") => Ok(TriadQuality::Diminished),
        (true, "+") => Ok(TriadQuality::Augmented),
        _ => Err(NumeralError::Quality),
    }
}

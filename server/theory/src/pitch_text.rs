//! Reading pitches and note names. Knows every way an accidental is written; knows nothing of the
//! text around the note.

use std::error::Error;
use std::fmt;
use std::str::FromStr;

use crate::{Accidental, Letter, Pitch, PitchClass};

/// Why a text is not a pitch, or not a note name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PitchError {
    /// It does not begin with a capital letter from A to G.
    Letter,
    /// The accidental is none of those in use.
    Accidental,
    /// The octave number is missing.
    MissingOctave,
    /// The octave number is not one figure from 0 to 9.
    Octave,
    /// A note name is followed by something else, such as an octave number.
    AfterName,
}

impl fmt::Display for PitchError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Letter => "a note begins with a capital letter from A to G",
            Self::Accidental => "an accidental is #, b, x (double sharp) or bb (double flat)",
            Self::MissingOctave => "the octave number is missing, as in F#3; C4 is middle C",
            Self::Octave => "the octave is one figure from 0 to 9; C4 is middle C",
            Self::AfterName => "a note name here has no octave and nothing after it, as in F#",
        })
    }
}

impl Error for PitchError {}

impl FromStr for Pitch {
    type Err = PitchError;

    fn from_str(text: &str) -> Result<Self, PitchError> {
        let (class, octave) = split_name(text)?;
        class.at(read_octave(octave)?).ok_or(PitchError::Octave)
    }
}

impl FromStr for PitchClass {
    type Err = PitchError;

    fn from_str(text: &str) -> Result<Self, PitchError> {
        match split_name(text)? {
            (class, "") => Ok(class),
            _ => Err(PitchError::AfterName),
        }
    }
}

/// The note name at the beginning of a text, and what follows it.
fn split_name(text: &str) -> Result<(PitchClass, &str), PitchError> {
    let mut characters = text.chars();
    let letter = characters.next().and_then(Letter::from_char).ok_or(PitchError::Letter)?;
    let after_letter = characters.as_str();
    let rest = after_letter.trim_start_matches(is_accidental_sign);
    let signs = &after_letter[..after_letter.len() - rest.len()];
    Ok((PitchClass::new(letter, read_accidental(signs)?), rest))
}

fn is_accidental_sign(sign: char) -> bool {
    matches!(sign, '#' | 'b' | 'x' | '♯' | '♭' | '♮' | '𝄪' | '𝄫')
}

fn read_accidental(signs: &str) -> Result<Accidental, PitchError> {
    match signs {
        "" | "♮" => Ok(Accidental::NATURAL),
        "#" | "♯" => Ok(Accidental::SHARP),
        "b" | "♭" => Ok(Accidental::FLAT),
        "x" | "##" | "♯♯" | "𝄪" => Ok(Accidental::DOUBLE_SHARP),
        "bb" | "♭♭" | "𝄫" => Ok(Accidental::DOUBLE_FLAT),
        _ => Err(PitchError::Accidental),
    }
}

fn read_octave(text: &str) -> Result<i8, PitchError> {
    match text.as_bytes() {
        [] => Err(PitchError::MissingOctave),
        [figure @ b'0'..=b'9'] => Ok((figure - b'0').cast_signed()),
        _ => Err(PitchError::Octave),
    }
}

//! Degrees of a scale: numbers, alterations and names. Knows no key; a key makes them.

use std::fmt;

/// The place of a note in the scale of a key.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ScaleDegree {
    /// The degree, 1 to 7.
    pub number: u8,
    /// Semitones by which the note is raised against the key's own scale, -4 to 4.
    pub alteration: i8,
    /// Semitones of the altered note above the tonic; what tells leading note from subtonic.
    semitones: i16,
}

impl ScaleDegree {
    pub(crate) fn new(number: u8, alteration: i8, semitones: i16) -> Self {
        Self { number, alteration, semitones }
    }

    /// The name of the degree. The seventh is the leading note a semitone below the tonic, else the
    /// subtonic; the names of the others do not tell whether they are altered.
    pub fn name(self) -> &'static str {
        match self.number {
            1 => "tonic",
            2 => "supertonic",
            3 => "mediant",
            4 => "subdominant",
            5 => "dominant",
            6 => "submediant",
            _ if self.semitones == 11 => "leading note",
            _ => "subtonic",
        }
    }
}

/// The number with a sharp or flat sign for each semitone of alteration: `4`, `#7`, `b2`.
impl fmt::Display for ScaleDegree {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.alteration > 0 { "#" } else { "b" };
        let signs = sign.repeat(self.alteration.unsigned_abs().into());
        write!(f, "{signs}{}", self.number)
    }
}

//! How a note is spelled: letter, accidental and octave as text. This module reads and writes the
//! spelling; it must not know how high a note sounds.

/// The letter and the accidental of a note.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Spelling {
    /// `A` to `G`.
    pub letter: char,
    /// Semitones by which the accidental raises the letter, -2 to 2.
    pub accidental: i8,
}

impl Spelling {
    /// Reads a letter with at most an accidental, as in `F#`.
    pub(crate) fn read(text: &str) -> Option<Self> {
        let mut rest = text.chars();
        let letter = rest.next().filter(|letter| ('A'..='G').contains(letter))?;
        Some(Self { letter, accidental: accidental(rest.as_str())? })
    }

    /// Reads a spelling and the octave that follows it; the octave may be missing.
    pub(crate) fn read_pitch(text: &str) -> Option<(Self, Option<i8>)> {
        let name = text.trim_end_matches(|char: char| char.is_ascii_digit());
        let octave = match &text[name.len()..] {
            "" => None,
            digit => Some(digit.parse().ok().filter(|_| digit.len() == 1)?),
        };
        Some((Self::read(name)?, octave))
    }

    /// Steps from C up to the letter, 0 to 6.
    pub(crate) fn step(self) -> i32 {
        "CDEFGAB".chars().zip(0..).find(|(letter, _)| *letter == self.letter).map_or(0, |(_, n)| n)
    }
}

impl std::fmt::Display for Spelling {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let accidental = match self.accidental {
            -2 => "bb",
            -1 => "b",
            1 => "#",
            2 => "x",
            _ => "",
        };
        write!(f, "{}{accidental}", self.letter)
    }
}

/// Semitones by which an accidental raises a letter; no accidental and the natural sign are 0.
pub(crate) fn accidental(text: &str) -> Option<i8> {
    match text {
        "" | "♮" => Some(0),
        "#" | "♯" => Some(1),
        "##" | "♯♯" | "x" | "𝄪" => Some(2),
        "b" | "♭" => Some(-1),
        "bb" | "♭♭" | "𝄫" => Some(-2),
        _ => None,
    }
}

/// Semitones by which the endings of German note names raise a letter.
pub(crate) fn german_accidental(ending: &str) -> Option<i8> {
    match ending {
        "is" => Some(1),
        "isis" => Some(2),
        "es" | "s" => Some(-1),
        "eses" | "ses" => Some(-2),
        _ => None,
    }
}

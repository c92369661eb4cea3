//! The quality of an interval: perfect, major, minor, diminished, augmented. Knows its names, not
//! its size.

use std::fmt;

/// The quality of an interval. Diminished and augmented count how often: 1 is plain, 2 is doubly.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Quality {
    /// Smaller than perfect or minor by so many semitones, 1 or more.
    Diminished(u8),
    /// The smaller of two diatonic sizes.
    Minor,
    /// The one size of unison, fourth, fifth, octave.
    Perfect,
    /// The larger of two diatonic sizes.
    Major,
    /// Larger than perfect or major by so many semitones, 1 or more.
    Augmented(u8),
}

impl Quality {
    /// The quality in words: "minor", "doubly augmented".
    pub fn words(self) -> String {
        match self {
            Self::Diminished(times) => format!("{}diminished", multiple(times)),
            Self::Minor => "minor".into(),
            Self::Perfect => "perfect".into(),
            Self::Major => "major".into(),
            Self::Augmented(times) => format!("{}augmented", multiple(times)),
        }
    }
}

/// The letters of the short name of an interval: `M`, `P`, `dd`.
impl fmt::Display for Quality {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::Diminished(times) => f.write_str(&"d".repeat(times.into())),
            Self::Minor => f.write_str("m"),
            Self::Perfect => f.write_str("P"),
            Self::Major => f.write_str("M"),
            Self::Augmented(times) => f.write_str(&"A".repeat(times.into())),
        }
    }
}

fn multiple(times: u8) -> String {
    match times {
        0 | 1 => String::new(),
        2 => "doubly ".into(),
        3 => "triply ".into(),
        4 => "quadruply ".into(),
        _ => format!("{times} times "),
    }
}

//! The clef of a voice: which sign stands on which line. Knows no format and no fonts.

use bicinium_theory::{Letter, Register};

/// A clef.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Clef {
    /// The note that it shows: G above middle C, middle C, or F below it.
    pub sign: Letter,
    /// The line on which it shows it, counted from the lowest, 1 to 5.
    pub line: u8,
}

/// Which clefs voices are written in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Clefs {
    /// Treble and bass, and C clefs for alto and tenor.
    #[default]
    Modern,
    /// One for each register, as in old vocal music: C clefs on four lines, F clefs on two.
    Vocal,
}

impl Clef {
    /// The clef of a register.
    pub fn of(register: Register, clefs: Clefs) -> Self {
        let (sign, line) = match (register, clefs) {
            (Register::Soprano | Register::Mezzo, Clefs::Modern) => (Letter::G, 2),
            (Register::Soprano, Clefs::Vocal) => (Letter::C, 1),
            (Register::Mezzo, Clefs::Vocal) => (Letter::C, 2),
            (Register::Alto, _) => (Letter::C, 3),
            (Register::Tenor, _) => (Letter::C, 4),
            (Register::Baritone, Clefs::Vocal) => (Letter::F, 3),
            (Register::Baritone | Register::Bass, _) => (Letter::F, 4),
        };
        Self { sign, line }
    }

    /// The place of the note that it shows, in diatonic steps above C0, as pitches count them.
    pub fn reference(self) -> i16 {
        match self.sign {
            Letter::G => 32,
            Letter::F => 24,
            _ => 28,
        }
    }
}

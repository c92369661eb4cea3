//! # What it finds
//! A note outside the compass of its voice.
//!
//! # Why it matters
//! What is written here is to be sung. Each register has its compass; beyond it a choir voice
//! strains.
//!
//! # Broken
//! ```bicinium
//! key D major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | F#5 | A5 |  |
//!   bass    counter |  | D3  | D2 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key D major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | F#5 | A5  |  |
//!   bass    counter |  | D3  | F#3 |  |
//! ```
//!
//! # Sources
//! A lead from memory for the usual choir registers; the low E of the bass is common practice.
//!
//! # Where schools differ
//! Every rulebook can set its own.
//!
//! # Switches
//! - `soprano`: the lowest and the highest note of a soprano, two pitches
//!   - `["C4", "A5"]`: C4 to A5 (from memory)
//! - `mezzo`: the lowest and the highest note of a mezzo-soprano, two pitches
//!   - `["A3", "F5"]`: A3 to F5 (from memory)
//! - `alto`: the lowest and the highest note of an alto, two pitches
//!   - `["F3", "D5"]`: F3 to D5 (from memory)
//! - `tenor`: the lowest and the highest note of a tenor, two pitches
//!   - `["C3", "A4"]`: C3 to A4 (from memory)
//! - `baritone`: the lowest and the highest note of a baritone, two pitches
//!   - `["A2", "F4"]`: A2 to F4 (from memory)
//! - `bass`: the lowest and the highest note of a bass, two pitches
//!   - `["E2", "D4"]`: E2 to D4 (common practice)

use bicinium_theory::{Pitch, Register};
use serde::Deserialize;

use crate::judge::{Heard, Report, Step, Words};
use crate::rulebook::Spelt;
use crate::rules::{Rule, wording};

/// The lowest and the highest note of each register.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Compass {
    soprano: Reach,
    mezzo: Reach,
    alto: Reach,
    tenor: Reach,
    baritone: Reach,
    bass: Reach,
}

type Reach = (Spelt<Pitch>, Spelt<Pitch>);

impl Rule for Compass {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        for voice in step.setting.written() {
            let register = step.setting.registers[voice];
            let (low, high) = self.of(register);
            let Some(note) = step.struck(voice) else { continue };
            if let Some(beyond) = beyond(note, low.0, high.0) {
                report.at(voice, note.onset, || {
                    Words::new(format!(
                        "{} lies {beyond} of the {}, {} to {}. Write a note within \
                         it, perhaps the same in another octave.",
                        wording::note_in(step.setting, note),
                        register.name(),
                        low.0,
                        high.0,
                    ))
                });
            }
        }
    }
}

impl Compass {
    fn of(&self, register: Register) -> &Reach {
        match register {
            Register::Soprano => &self.soprano,
            Register::Mezzo => &self.mezzo,
            Register::Alto => &self.alto,
            Register::Tenor => &self.tenor,
            Register::Baritone => &self.baritone,
            Register::Bass => &self.bass,
        }
    }
}

/// On which side a note lies beyond the compass; it is the sound that strains a voice, not the
/// spelling.
fn beyond(note: Heard, low: Pitch, high: Pitch) -> Option<&'static str> {
    if note.pitch.midi() < low.midi() {
        Some("below the compass")
    } else {
        (note.pitch.midi() > high.midi()).then_some("above the compass")
    }
}

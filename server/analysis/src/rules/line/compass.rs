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

use std::collections::BTreeMap;

use bicinium_theory::{Pitch, Register};
use serde::Deserialize;

use crate::judge::{Heard, Report, Step, Words};
use crate::rulebook::Spelt;
use crate::rules::{Rule, wording};

/// The lowest and the highest note of each register.
#[derive(Debug, Deserialize)]
#[serde(transparent)]
pub struct Compass {
    registers: BTreeMap<Spelt<Register>, (Spelt<Pitch>, Spelt<Pitch>)>,
}

impl Rule for Compass {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        for voice in step.setting.written() {
            let register = step.setting.registers[voice];
            let compass = self.registers.get(&Spelt(register));
            let (Some((low, high)), Some(note)) = (compass, step.struck(voice)) else {
                continue;
            };
            if let Some(beyond) = beyond(note, low.0, high.0) {
                report.at(voice, note.onset, || {
                    Words::new(format!(
                        "{} lies {beyond} of the {}, {} to {}. Write it an octave nearer, or \
                         another note.",
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

fn beyond(note: Heard, low: Pitch, high: Pitch) -> Option<&'static str> {
    if note.pitch < low {
        Some("below the compass")
    } else {
        (note.pitch > high).then_some("above the compass")
    }
}

//! # What it finds
//! The same letter with different accidentals in the two voices, one note right after the other.
//!
//! # Why it matters
//! Each voice contradicts the other; the ear has just fixed the note it then hears altered.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key A aeolian
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | G4 | B4  | A4 |
//!   tenor   counter |  | B3 | G#3 | A3 |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key A aeolian
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | C5 | B4  | A4 |
//!   tenor   counter |  | A3 | G#3 | A3 |
//! ```
//!
//! # Sources
//! Lavignac 1895 (10); a lead from memory.
//!
//! # Where schools differ
//! They do not.

use serde::Deserialize;

use crate::judge::{Heard, Report, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CrossRelation {}

impl Rule for CrossRelation {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(progression) = step.progression() else { return };
        for voice in VoiceId::BOTH {
            let earlier = progression.from.notes[voice];
            let later = progression.to.notes[voice.other()];
            let is_new = progression.to.strikes(voice.other());
            if !is_new || !contradicts(earlier, later) {
                continue;
            }
            report.at(voice.other(), later.onset, || {
                Words::new(format!(
                    "{} contradicts the {} that the other voice has just sung. Keep one of the two \
                     accidentals, or put the note into the same voice.",
                    wording::note_in(step.setting, later),
                    earlier.pitch,
                ))
                .with(voice, earlier.onset, "the note before")
            });
        }
    }
}

fn contradicts(earlier: Heard, later: Heard) -> bool {
    earlier.pitch.letter() == later.pitch.letter()
        && earlier.pitch.accidental() != later.pitch.accidental()
}

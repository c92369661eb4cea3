//! # What it finds
//! A suspension 9–8 whose held note was prepared as an octave, or 2–1 as a unison.
//!
//! # Why it matters
//! The ninth only delays the octave. Taken away, it leaves an octave that goes to an octave.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 4
//!   soprano counter | | A4 D5 | - C5 | |
//!   tenor   cantus  | | D4    | C4   | |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 4
//!   soprano counter | | A4 D5 | - C5 | |
//!   tenor   cantus  | | F4    | C4   | |
//! ```
//!
//! # Sources
//! Open Music Theory; Cherubini 1835; an older American manual.
//!
//! # Where schools differ
//! They do not, where they have the 9–8 at all.

use serde::Deserialize;

use super::kinds;
use crate::judge::{Report, Words};
use crate::reading::HearingStep;
use crate::rules::{Rule, wording};

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NinthFromOctave {}

impl Rule for NinthFromOctave {
    fn hear(&self, step: &HearingStep<'_>, report: &mut Report) {
        for suspension in kinds::resolved(step) {
            let is_ninth = matches!((suspension.kind.from, suspension.kind.to), (9, 8) | (2, 1));
            let preparation = step.notes.after.pair.at(suspension.note.onset);
            let from_octave = preparation.is_some_and(|prepared| prepared.simple_number() == 1);
            if is_ninth && from_octave {
                report.at(suspension.voice, suspension.note.onset, || {
                    Words::new(format!(
                        "{} is a suspension {} prepared in {} by the same consonance that it \
                         resolves to. Prepare it with a third, a fifth or a sixth.",
                        suspension.tell(step),
                        suspension.kind,
                        wording::place(step.notes.setting, suspension.note.onset),
                    ))
                    .with(
                        suspension.voice,
                        suspension.resolution.onset,
                        "its resolution",
                    )
                });
            }
        }
    }
}

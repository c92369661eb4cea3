//! # What it finds
//! A suspension that is resolved before the next main beat, and whose resolution does not stand there
//! any more.
//!
//! # Why it matters
//! The resolution belongs on the main beat. What comes before decorates it, and may even give it away,
//! but must not take its place.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key F ionian
//!
//! exercise
//!   species 5
//!   soprano counter | | A4 C5 | - Bb4 A4 G4 | A4 Bb4 C5 - | |
//!   tenor   cantus  | | F4    | D4          | F4          | |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key F ionian
//!
//! exercise
//!   species 5
//!   soprano counter | | A4 C5 | - (Bb4 A4) Bb4 G4 | A4 Bb4 C5 - | |
//!   tenor   cantus  | | F4    | D4                | F4          | |
//! ```
//!
//! # Sources
//! Lehmann 1907 (82); Fux 1725.
//!
//! # Where schools differ
//! How grave it is.

use serde::Deserialize;

use super::kinds;
use crate::judge::{Report, Words};
use crate::reading::HearingStep;
use crate::rules::Rule;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EarlyResolution {}

impl Rule for EarlyResolution {
    fn hear(&self, step: &HearingStep<'_>, report: &mut Report) {
        let is_past = |resolution: crate::judge::Heard| resolution.onset < step.notes.now.onset;
        for suspension in kinds::resolved(step).filter(|found| is_past(found.resolution)) {
            let resolution = suspension.resolution.pitch;
            report.at(suspension.voice, suspension.note.onset, || {
                Words::new(format!(
                    "{}, is resolved too early: {resolution} comes before the next main beat and does \
                     not stand on it. Bring {resolution} on that beat, whatever decorates it before.",
                    suspension.held(step),
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

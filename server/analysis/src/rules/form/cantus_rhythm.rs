//! # What it finds
//! A given cantus that is not in notes as long as a bar.
//!
//! # Why it matters
//! Every species measures itself against a cantus that moves once a bar.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | B4 D5 | C5 |  |
//!   tenor   counter |  | G3    | A3 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | B4 | C5 |  |
//!   tenor   counter |  | G3 | A3 |  |
//! ```
//!
//! # Sources
//! All treatises.
//!
//! # Where schools differ
//! They do not.

use serde::Deserialize;

use crate::judge::{Report, Step, Words};
use crate::rules::{Rule, wording};

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CantusRhythm {}

impl Rule for CantusRhythm {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let (Some(cantus), Some(_)) = (step.setting.cantus, step.setting.species) else { return };
        let Some(note) = step.struck(cantus) else { return };
        if step.is_downbeat() && note.duration == step.setting.bar_length() {
            return;
        }
        report.at(cantus, note.onset, || {
            Words::new(format!(
                "{} of the cantus lasts a {}; a cantus has one note in every bar.",
                wording::note_in(step.setting, note),
                note.duration,
            ))
        });
    }
}

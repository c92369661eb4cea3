//! # What it finds
//! A cantus that is not in notes as long as a bar, or rests.
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

use crate::judge::{Heard, LineState, Report, Step, Stroke, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CantusRhythm {}

impl Rule for CantusRhythm {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let given = step.setting.cantus.filter(|_| step.setting.species.is_some());
        let Some(cantus) = given.or(step.setting.alone) else { return };
        if let Some(note) = step.struck(cantus).filter(|note| !is_whole(step, *note)) {
            report.at(cantus, note.onset, || {
                Words::new(format!(
                    "{} of the cantus lasts {}; a cantus has one note in every bar.",
                    wording::note_in(step.setting, note),
                    wording::with_article(&note.duration.to_string()),
                ))
            });
        }
        if rests(step, cantus) {
            report.at(cantus, step.now.onset, || {
                Words::new(format!(
                    "The cantus rests in {}; a cantus has one note in every bar.",
                    wording::place(step.setting, step.now.onset),
                ))
            });
        }
    }
}

fn is_whole(step: &Step<'_>, note: Heard) -> bool {
    step.is_downbeat() && note.duration == step.setting.bar_length()
}

/// Whether a rest begins, or goes on in a new bar.
fn rests(step: &Step<'_>, cantus: VoiceId) -> bool {
    let was_silent = step.before.lines[cantus].state == LineState::Silent;
    let rests = matches!(step.now.strokes[cantus], Stroke::Rests);
    rests && (step.is_downbeat() || !was_silent)
}

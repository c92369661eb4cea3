//! # What it finds
//! An augmented interval in a line, the augmented second among them.
//!
//! # Why it matters
//! Its outer notes pull apart and are hard to sing in tune; the line sounds bent.
//!
//! # Broken
//! ```bicinium
//! key A minor
//!
//! exercise
//!   species 2
//!   soprano cantus  |  | C5    | B4     |  |
//!   tenor   counter |  | E3 F3 | G#3 E3 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key A minor
//!
//! exercise
//!   species 2
//!   soprano cantus  |  | C5     | B4     |  |
//!   tenor   counter |  | E3 F#3 | G#3 E3 |  |
//! ```
//!
//! # Sources
//! All treatises; for the augmented second, a lead from memory.
//!
//! # Where schools differ
//! They do not.

use serde::Deserialize;

use crate::judge::{Report, Step, Words};
use crate::rules::{Rule, wording};

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AugmentedLeap {}

impl Rule for AugmentedLeap {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        for voice in step.setting.written() {
            let Some((from, to, leap)) = step.entered(voice) else { continue };
            if !leap.is_augmented() || !(2..=8).contains(&leap.number()) {
                continue;
            }
            report.at(voice, to.onset, || {
                Words::new(format!(
                    "{} in {} is {}. Choose another note on one side, or raise or lower one of \
                     them as the key allows.",
                    wording::from_to(from, to),
                    wording::place(step.setting, to.onset),
                    wording::an_interval(leap),
                ))
                .with(voice, from.onset, "from this note")
            });
        }
    }
}

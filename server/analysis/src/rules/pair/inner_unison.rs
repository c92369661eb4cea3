//! # What it finds
//! A unison on a strong beat that is neither the beginning nor the end.
//!
//! # Why it matters
//! On a strong beat a unison makes two voices into one, and the harmony vanishes.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter |  | E4 | D4 |  |
//!   tenor   cantus  |  | C4 | D4 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter |  | E4 | F4 |  |
//!   tenor   cantus  |  | C4 | D4 |  |
//! ```
//!
//! # Sources
//! Open Music Theory; Lavignac 1895 (4); Lehmann 1907. On a weak beat all but Lavignac admit it.
//!
//! # Where schools differ
//! They do not, on strong beats.

use serde::Deserialize;

use crate::judge::{Report, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct InnerUnison {}

impl Rule for InnerUnison {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let is_inside = step.bar() > 0 && !step.is_last_bar();
        let Some(now) = step.sounded().filter(|_| is_inside && step.is_downbeat()) else { return };
        if !now.interval().is_unison() {
            return;
        }
        report.together(now.onset, || {
            Words::new(format!(
                "Both voices sing {} on the strong beat of {}. Take a third, a sixth or an octave.",
                now.notes.upper.pitch,
                wording::place(step.setting, now.onset),
            ))
            .with(VoiceId::Upper, now.notes.upper.onset, "the upper voice")
        });
    }
}

//! # What it finds
//! The voices stand further apart than the school likes.
//!
//! # Why it matters
//! Voices that are far apart stop listening to each other; between neighbours a twelfth is wide.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter |  | E5 | F5 |  |
//!   tenor   cantus  |  | G3 | A3 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter |  | D5 | C5 |  |
//!   tenor   cantus  |  | G3 | A3 |  |
//! ```
//!
//! # Sources
//! Open Music Theory (a twelfth); a tenth is a lead from memory; Fux 1725 has a thirteenth once; for
//! a bass below a soprano, common practice.
//!
//! # Where schools differ
//! Modal: more than a twelfth is a caution. Tonal: a bass may stand far below a soprano; more than
//! two octaves and a sixth is advice.
//!
//! # Switches
//! - `at-most`: how far apart the voices may stand, an interval
//!   - `M10`: a tenth (from memory)
//!   - `P12`: a twelfth (Open Music Theory)
//!   - `M13`: a thirteenth (Fux 1725, once)
//!   - `M20`: two octaves and a sixth, as a bass below a soprano (common practice)

use serde::Deserialize;

use super::telling;
use super::width::Width;
use crate::judge::{Report, Sounded, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// How far apart the voices may stand.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Distance {
    at_most: Width,
}

impl Rule for Distance {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let is_far = |sounded: &Sounded| self.at_most.is_exceeded_by(sounded.interval());
        let Some(now) = step.sounded().filter(is_far) else { return };
        if step.before.pair.now().is_some_and(|before| is_far(&before)) {
            return;
        }
        report.together(now.onset, || {
            Words::new(format!(
                "The voices stand {} apart in {}: {}. Bring them within a {}.",
                wording::an_interval(now.interval()),
                wording::place(step.setting, now.onset),
                telling::pair(now),
                self.at_most.words(),
            ))
            .with(VoiceId::Upper, now.notes.upper.onset, "the upper note")
        });
    }
}

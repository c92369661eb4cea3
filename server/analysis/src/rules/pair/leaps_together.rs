//! # What it finds
//! Both voices leap at once: in the same direction, or both by more than a third.
//!
//! # Why it matters
//! Where both lines leap, neither holds the other; the music jumps as a block.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | E5 | G5 |  |
//!   tenor   counter |  | C4 | E4 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | E5 | G5 |  |
//!   tenor   counter |  | C4 | B3 |  |
//! ```
//!
//! # Sources
//! Common practice.
//!
//! # Where schools differ
//! A matter of taste everywhere.

use serde::Deserialize;

use super::telling;
use crate::judge::{Report, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LeapsTogether {}

impl Rule for LeapsTogether {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(progression) = step.progression() else { return };
        let upper = progression.interval(VoiceId::Upper);
        let lower = progression.interval(VoiceId::Lower);
        let is_same_way = upper.direction() == lower.direction();
        let is_wide = upper.number() > 3 && lower.number() > 3;
        if !upper.is_leap() || !lower.is_leap() || !(is_same_way || is_wide) {
            return;
        }
        let to = progression.to;
        report.together(to.onset, || {
            Words::new(format!(
                "Both voices leap to {} in {}. Let one of them move by step or stay.",
                telling::pair(to),
                wording::place(step.setting, to.onset),
            ))
            .with(VoiceId::Upper, progression.from.onset, "the voices come from here")
        });
    }
}

//! # What it finds
//! Two fifths, two octaves or two unisons one after the other, both voices moving the same way.
//! Twelfths count as fifths, and unisons and fifteenths as octaves.
//!
//! # Why it matters
//! Voices that move in perfect consonances melt into one another and are no longer two.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | C5 | D5 |  |
//!   tenor   counter |  | F3 | G3 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | C5 | D5 |  |
//!   tenor   counter |  | F3 | D3 |  |
//! ```
//!
//! # Sources
//! All treatises; Fux 1725 writes none in his two-part examples.
//!
//! # Where schools differ
//! They do not. The same by contrary motion is a rule of its own.

use bicinium_theory::Motion;
use serde::Deserialize;

use super::telling;
use crate::judge::{Report, Step, Words};
use crate::rules::Rule;
use crate::score::VoiceId;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ConsecutivePerfects {}

impl Rule for ConsecutivePerfects {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(progression) = step.progression() else { return };
        let (from, to) = (progression.from, progression.to);
        let is_same = to.perfect().is_some() && to.perfect() == from.perfect();
        if !is_same || !matches!(progression.motion(), Motion::Parallel | Motion::Similar) {
            return;
        }
        report.together(to.onset, || {
            Words::new(format!(
                "{} in a row: {}. Move one voice the other way, or to a third or sixth.",
                telling::kind(from, to),
                telling::one_after_the_other(step.setting, from, to),
            ))
            .with(VoiceId::Upper, from.onset, "the first of the two")
        });
    }
}

//! # What it finds
//! Two fifths or two octaves one after the other with the voices moving apart or together, such as
//! an octave and a fifteenth.
//!
//! # Why it matters
//! Contrary motion hides the fault on paper only; the ear still hears the same empty sound twice.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | A4 | D5 |  |
//!   tenor   counter |  | D4 | G3 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | A4 | D5 |  |
//!   tenor   counter |  | D4 | B3 |  |
//! ```
//!
//! # Sources
//! Open Music Theory; Lehmann 1907 (12). Lavignac 1895 tolerates it after one or two quarters.
//!
//! # Where schools differ
//! A fault everywhere in first and second species; later a caution in conservatoire teaching.

use bicinium_theory::Motion;
use serde::Deserialize;

use super::telling;
use crate::judge::{Report, Step, Words};
use crate::rules::Rule;
use crate::score::VoiceId;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ContraryPerfects {}

impl Rule for ContraryPerfects {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(progression) = step.progression() else { return };
        let (from, to) = (progression.from, progression.to);
        let is_same = to.perfect().is_some() && to.perfect() == from.perfect();
        if !is_same || progression.motion() != Motion::Contrary {
            return;
        }
        report.together(to.onset, || {
            Words::new(format!(
                "{} by contrary motion. Lead one voice to a third or sixth.",
                telling::two_of_a_kind(step.setting, from, to),
            ))
            .with(VoiceId::Upper, from.onset, "the first of the two")
        });
    }
}

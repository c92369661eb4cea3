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
//! Open Music Theory; Lehmann 1907 (12). Lavignac 1895 tolerates it after one or two quarters, for
//! which see `main-quarter-perfects`.
//!
//! # Where schools differ
//! A fault everywhere in first and second species; later a caution in conservatoire teaching.
//! Lehmann avoids a fifth and an octave by contrary motion too; others do not mind.
//!
//! # Switches
//! - `fifth-and-octave`: whether a fifth and an octave may follow each other by contrary motion
//!   - `admitted`: they may (Open Music Theory)
//!   - `refused`: they may not (Lehmann 1907, fig. 12)

use bicinium_theory::Motion;
use serde::Deserialize;

use super::telling;
use crate::judge::{Progression, Report, Step, Words};
use crate::rules::Rule;
use crate::score::VoiceId;

/// What is said of a fifth and an octave one after the other.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct ContraryPerfects {
    fifth_and_octave: Unlike,
}

/// Whether two perfect consonances of different kinds may follow each other by contrary motion.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Unlike {
    /// They may (Open Music Theory).
    Admitted,
    /// They may not (Lehmann).
    Refused,
}

impl Rule for ContraryPerfects {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(Progression { from, to }) = by_contrary_motion(step) else { return };
        let is_same = to.perfect() == from.perfect();
        if !is_same && self.fifth_and_octave == Unlike::Admitted {
            return;
        }
        let kind = if is_same { telling::kind(from, to) } else { "Two perfect consonances" };
        report.together(to.onset, || {
            Words::new(format!(
                "{kind} in a row by contrary motion: {}. Lead one voice to a third or sixth.",
                telling::one_after_the_other(step.setting, from, to),
            ))
            .with(VoiceId::Upper, from.onset, "the first of the two")
        });
    }
}

/// The way by contrary motion from one perfect consonance to another.
fn by_contrary_motion(step: &Step<'_>) -> Option<Progression> {
    let progression = step.progression()?;
    let are_perfect = progression.from.perfect().is_some() && progression.to.perfect().is_some();
    (are_perfect && progression.motion() == Motion::Contrary).then_some(progression)
}

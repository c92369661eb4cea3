//! # What it finds
//! An octave on a strong beat into which the lower voice steps up and the upper voice leaps down.
//!
//! # Why it matters
//! The voices fall upon each other; the octave strikes like a blow and sounds like an end.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter |  | E5 | B4 |  |
//!   tenor   cantus  |  | A3 | B3 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter |  | E5 | D5 |  |
//!   tenor   cantus  |  | A3 | B3 |  |
//! ```
//!
//! # Sources
//! Fux 1725 (opening rule 2); he never writes a downbeat octave with converging voices.
//!
//! # Where schools differ
//! Conservatoire teaching ignores it. The wider form, any convergence, is a rule of its own.

use bicinium_theory::{Direction, PerfectClass};
use serde::Deserialize;

use super::telling;
use crate::judge::{Progression, Report, Step, Words};
use crate::rules::Rule;
use crate::score::VoiceId;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ConvergingOctave {}

impl Rule for ConvergingOctave {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(into) = converging(step).filter(is_narrow) else { return };
        tell(step, into, report);
    }
}

/// The way into an octave on a strong beat with the voices moving towards each other.
pub(super) fn converging(step: &Step<'_>) -> Option<Progression> {
    let progression = step.progression().filter(|_| step.is_downbeat())?;
    let to = progression.to;
    let is_octave = to.perfect() == Some(PerfectClass::Octave) && !to.interval().is_unison();
    let direction = |voice| progression.interval(voice).direction();
    let converges =
        direction(VoiceId::Upper) == Direction::Down && direction(VoiceId::Lower) == Direction::Up;
    (is_octave && converges).then_some(progression)
}

/// The lower voice steps, the upper voice leaps.
pub(super) fn is_narrow(progression: &Progression) -> bool {
    progression.interval(VoiceId::Lower).is_step() && progression.interval(VoiceId::Upper).is_leap()
}

pub(super) fn tell(step: &Step<'_>, into: Progression, report: &mut Report) {
    let (from, to) = (into.from, into.to);
    report.together(to.onset, || {
        Words::new(format!(
            "The voices close in upon an octave on the strong beat: {}. Come to it with the voices \
             moving apart, or take a tenth or a sixth.",
            telling::one_after_the_other(step.setting, from, to),
        ))
        .with(VoiceId::Upper, from.onset, "the voices come from here")
    });
}

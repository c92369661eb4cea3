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
//!   soprano cantus  | C5 | D5 | C5 |
//!   bass    counter | F3 | G3 | A3 |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  | C5 | D5 | C5 |
//!   bass    counter | F3 | B3 | A3 |
//! ```
//!
//! # Sources
//! All treatises; Fux 1725 writes none in his two-part examples.
//!
//! # Where schools differ
//! They do not. The same by contrary motion is a rule of its own.

use bicinium_theory::{Motion, PerfectClass};
use serde::Deserialize;

use crate::judge::{Report, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ConsecutivePerfects {}

impl Rule for ConsecutivePerfects {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(progression) = step.progression() else { return };
        let (from, to) = (progression.from, progression.to);
        let Some(class) = to.perfect().filter(|class| from.perfect() == Some(*class)) else {
            return;
        };
        if !matches!(progression.motion(), Motion::Parallel | Motion::Similar) {
            return;
        }
        report.together(to.onset, || {
            Words::new(format!(
                "Consecutive {}: {} over {}, then {} over {} in {}. Move one voice the other way, \
                 or to a third or sixth.",
                plural(class),
                from.notes.upper.pitch,
                from.notes.lower.pitch,
                to.notes.upper.pitch,
                to.notes.lower.pitch,
                wording::place(step.setting, to.onset),
            ))
            .with(VoiceId::Upper, from.onset, "the first of the two")
        });
    }
}

fn plural(class: PerfectClass) -> &'static str {
    match class {
        PerfectClass::Fifth => "fifths",
        PerfectClass::Octave => "octaves",
    }
}

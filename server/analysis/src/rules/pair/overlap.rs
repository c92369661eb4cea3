//! # What it finds
//! A voice moves past the note that the other voice has just left.
//!
//! # Why it matters
//! The ear takes the new note for a continuation of the other line, and the two are confused.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | C4 | G4 |  |
//!   tenor   counter |  | A3 | E4 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | C4 | G4 |  |
//!   tenor   counter |  | A3 | B3 |  |
//! ```
//!
//! # Sources
//! Open Music Theory.
//!
//! # Where schools differ
//! A caution everywhere.

use serde::Deserialize;

use super::telling;
use crate::judge::{Report, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Overlap {}

impl Rule for Overlap {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(progression) = step.progression() else { return };
        let (from, to) = (progression.from, progression.to);
        if telling::is_crossed(&from) || telling::is_crossed(&to) {
            return;
        }
        let lower_rises = to.notes.lower.pitch > from.notes.upper.pitch;
        let upper_falls = to.notes.upper.pitch < from.notes.lower.pitch;
        if !lower_rises && !upper_falls {
            return;
        }
        let (voice, word) =
            if lower_rises { (VoiceId::Lower, "above") } else { (VoiceId::Upper, "below") };
        report.at(voice, to.notes[voice].onset, || {
            Words::new(format!(
                "{} in {} lies {word} {}, which the other voice has just left. Keep the voices in \
                 their own space.",
                to.notes[voice].pitch,
                wording::place(step.setting, to.onset),
                from.notes[voice.other()].pitch,
            ))
            .with(voice.other(), from.notes[voice.other()].onset, telling::pair(from))
        });
    }
}

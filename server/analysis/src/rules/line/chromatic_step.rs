//! # What it finds
//! A chromatic semitone: the same letter with another accidental.
//!
//! # Why it matters
//! Strict counterpoint moves within a scale; a note that only changes its accidental leaves it.
//!
//! # Broken
//! ```bicinium
//! key A minor
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | B4 | B4  |  |
//!   tenor   counter |  | G3 | G#3 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key A minor
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | B4 | B4 |  |
//!   tenor   counter |  | G3 | E3 |  |
//! ```
//!
//! # Sources
//! A lead from memory; common practice.
//!
//! # Where schools differ
//! They do not.

use serde::Deserialize;

use crate::judge::{Report, Step, Words};
use crate::rules::{Rule, wording};

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChromaticStep {}

impl Rule for ChromaticStep {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        for voice in step.setting.written() {
            let Some((from, to, interval)) = step.entered(voice) else { continue };
            if interval.number() != 1 || interval.is_unison() {
                continue;
            }
            report.at(voice, to.onset, || {
                Words::new(format!(
                    "{} in {} is a chromatic step. Keep one of the two notes, or come to the other \
                     from a neighbouring degree.",
                    wording::from_to(from, to),
                    wording::place(step.setting, to.onset),
                ))
                .with(voice, from.onset, "from this note")
            });
        }
    }
}

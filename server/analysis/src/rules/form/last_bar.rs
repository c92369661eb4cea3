//! # What it finds
//! A last bar that is not one note as long as the bar.
//!
//! # Why it matters
//! The last note is where both voices come to rest together.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano cantus  |  | D5    | C5    |
//!   bass    counter |  | G3 B3 | C4 C3 |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano cantus  |  | D5    | C5 |
//!   tenor   counter |  | G3 B3 | C4 |
//! ```
//!
//! # Sources
//! Open Music Theory.
//!
//! # Where schools differ
//! They do not.

use bicinium_theory::Duration;
use serde::Deserialize;

use crate::judge::{Heard, Report, Step, Words};
use crate::rules::{Rule, wording};

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LastBar {}

impl Rule for LastBar {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        if !step.is_last_bar() {
            return;
        }
        for voice in step.setting.written() {
            let Some(note) = step.struck(voice).filter(|note| !is_whole(step, *note)) else {
                continue;
            };
            report.at(voice, note.onset, || {
                Words::new(format!(
                    "{} lasts a {}; the last bar is one long note. Write nothing else in it.",
                    wording::note_in(step.setting, note),
                    note.duration,
                ))
            });
        }
    }
}

fn is_whole(step: &Step<'_>, note: Heard) -> bool {
    step.within_bar() == Duration::ZERO && note.duration == step.setting.bar_length()
}

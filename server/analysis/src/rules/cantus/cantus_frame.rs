//! # What it finds
//! A cantus that does not begin and end on the tonic.
//!
//! # Why it matters
//! The tonic at both ends says what mode the cantus is in, and gives the counterpoint a perfect
//! consonance to begin and to end with.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   tenor cantus | E4 | D4 | F4 | E4 | D4 | G4 | F4 | E4 | D4 | C4 |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   tenor cantus | C4 | D4 | F4 | E4 | D4 | G4 | F4 | E4 | D4 | C4 |
//! ```
//!
//! # Sources
//! Open Music Theory, chapter on cantus firmus; the cantus of Fux 1725 keep it.
//!
//! # Where schools differ
//! They do not.

use serde::Deserialize;

use crate::judge::{Heard, Report, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::Setting;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CantusFrame {}

impl Rule for CantusFrame {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(voice) = step.setting.alone else { return };
        let is_at_an_end = step.bar() == 0 || step.is_last_bar();
        let is_off = |note: &Heard| note.pitch.class() != step.setting.key.tonic;
        if let Some(note) = step.struck(voice).filter(is_off).filter(|_| is_at_an_end) {
            report.at(voice, note.onset, || words(step.setting, note, step.is_last_bar()));
        }
    }
}

fn words(setting: &Setting, note: Heard, is_end: bool) -> Words {
    let (has, mend) = if is_end { ("ends", "End") } else { ("begins", "Begin") };
    Words::new(format!(
        "The cantus {has} on {}. {mend} on {}, the tonic of {}.",
        wording::note_in(setting, note),
        setting.key.tonic,
        setting.key,
    ))
}

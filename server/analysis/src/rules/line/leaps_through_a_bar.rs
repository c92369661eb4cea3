//! # What it finds
//! A bar of quarters whose first three notes are all left by leap.
//!
//! # Why it matters
//! Quarters move fast enough that the ear needs a step to hold on to in every bar; four notes in
//! leaps are a broken chord, not a line.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 3
//!   soprano counter | | E4 G4 E4 A4 | |
//!   tenor   cantus  | | C4          | |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 3
//!   soprano counter | | E4 G4 A4 C5 | |
//!   tenor   cantus  | | C4          | |
//! ```
//!
//! # Sources
//! Lehmann 1907 (43).
//!
//! # Where schools differ
//! Lehmann demands a step after one of the first three quarters; the others do not speak of it, and
//! it is a matter of taste there.

use bicinium_theory::Interval;
use serde::Deserialize;

use crate::judge::{Heard, Report, Sight, Step, Words};
use crate::rules::{Rule, wording};

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LeapsThroughABar {}

impl Rule for LeapsThroughABar {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        for voice in step.setting.written() {
            let line = step.line(voice);
            let (Some(last), Some(first)) = (step.struck(voice), line.back(3)) else { continue };
            let notes: Vec<Heard> = line.notes().iter().rev().take(4).copied().collect();
            if first.onset != step.setting.bar_start(step.bar()) || !all_leap(&notes) {
                continue;
            }
            report.at(voice, last.onset, || {
                Words::new(format!(
                    "The line leaps from note to note, {}, up to {}. Let one of the first three \
                     notes of the bar go on by step.",
                    wording::from_to(first, last),
                    wording::place(step.setting, last.onset),
                ))
                .with(voice, first.onset, "the leaps begin here")
            });
        }
    }

    fn sight(&self) -> Sight {
        Sight::notes(3)
    }
}

fn all_leap(notes: &[Heard]) -> bool {
    notes.windows(2).all(|pair| Interval::between(pair[0].pitch, pair[1].pitch).is_leap())
}

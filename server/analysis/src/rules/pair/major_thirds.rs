//! # What it finds
//! Two major thirds one after the other in a major key.
//!
//! # Why it matters
//! Where they stand a whole tone apart, their outer notes make a tritone, which the ear hears across
//! the voices; elsewhere two of them still sound hard.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | A4 | B4 | C5 |  |
//!   tenor   counter |  | F3 | G3 | A3 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | A4 | B4 | C5 |  |
//!   tenor   counter |  | D4 | G3 | A3 |  |
//! ```
//!
//! # Sources
//! Lehmann 1907 (14).
//!
//! # Where schools differ
//! Only Lehmann says so; other schools leave it to taste.

use bicinium_theory::Interval;
use serde::Deserialize;

use super::telling;
use crate::judge::{Report, Sounded, Step, Words};
use crate::rules::Rule;
use crate::score::VoiceId;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MajorThirds {}

impl Rule for MajorThirds {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(progression) = step.progression() else { return };
        let (from, to) = (progression.from, progression.to);
        let is_major_key = !step.setting.key.mode.is_minor_like();
        if !is_major_key || !is_major_third(from) || !is_major_third(to) || !progression.both_move()
        {
            return;
        }
        report.together(to.onset, || {
            Words::new(format!(
                "Two major thirds in a row: {}. They sound hard in major; let a minor third, a \
                 sixth or a perfect consonance follow the first.",
                telling::one_after_the_other(step.setting, from, to),
            ))
            .with(VoiceId::Upper, from.onset, "the first of the two")
        });
    }
}

fn is_major_third(sounded: Sounded) -> bool {
    sounded.interval().simple() == Interval::new(2, 4)
}

//! # What it finds
//! The upper voice sounds below the lower one.
//!
//! # Why it matters
//! Crossed voices trade their places, and what was meant as the lower line is heard as the upper
//! one.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | C4 | D4 |  |
//!   tenor   counter |  | A3 | F4 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | C4 | D4 |  |
//!   tenor   counter |  | A3 | B3 |  |
//! ```
//!
//! # Sources
//! Lavignac 1895 (4) refuses it; Cherubini 1835 (3), Grove 1883 and Lehmann 1907 admit it for a
//! moment from second species on; Fux 1725 does it in nine examples.
//!
//! # Where schools differ
//! A caution in modal teaching, a fault in conservatoire teaching.

use serde::Deserialize;

use super::telling;
use crate::judge::{Report, Sounded, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Crossing {}

impl Rule for Crossing {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(now) = step.sounded().filter(|now| is_crossed(*now)) else { return };
        if step.before.pair.now().is_some_and(is_crossed) {
            return;
        }
        report.together(now.onset, || {
            Words::new(format!(
                "The voices cross in {}: {} sounds below {}. Move one of them back to its side.",
                wording::place(step.setting, now.onset),
                now.notes.upper.pitch,
                now.notes.lower.pitch,
            ))
            .with(VoiceId::Upper, now.onset, telling::pair(now))
        });
    }
}

fn is_crossed(sounded: Sounded) -> bool {
    sounded.bass() == VoiceId::Upper
}

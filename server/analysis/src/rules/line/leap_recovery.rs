//! # What it finds
//! A leap of a fourth or more that is not followed by a step, or a smaller leap, the other way.
//!
//! # Why it matters
//! A wide leap opens a gap and a tension; turning back into the gap fills it and keeps the line
//! singable.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  | | E5 | F5 | G5 | |
//!   tenor   counter | | C4 | F3 | E3 | |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  | | E5 | F5 | G5 | |
//!   tenor   counter | | C4 | D4 | E4 | |
//! ```
//!
//! # Sources
//! Open Music Theory, chapter on cantus firmus; Bridge 1877; for the octave: common practice.
//!
//! # Where schools differ
//! Fux often goes on in the direction of the leap, so no school makes it a fault.

use bicinium_theory::Interval;
use serde::Deserialize;

use crate::judge::{Report, Step, Words};
use crate::rules::{Rule, wording};

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LeapRecovery {}

impl Rule for LeapRecovery {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        for voice in step.setting.written() {
            let line = step.line(voice);
            let (Some((from, to, exit)), Some(leap)) = (step.entered(voice), line.interval(1))
            else {
                continue;
            };
            if leap.number() < 4 || turns_back(leap, exit) {
                continue;
            }
            let Some(before) = line.back(2) else { continue };
            report.at(voice, from.onset, || {
                Words::new(format!(
                    "The leap {}, {}, is not made good: {} goes on to {}. A step the other way \
                     would balance it.",
                    wording::from_to(before, from),
                    wording::an_interval(leap),
                    from.pitch,
                    to.pitch,
                ))
                .with(voice, to.onset, "the line goes on here")
            });
        }
    }
}

fn turns_back(leap: Interval, exit: Interval) -> bool {
    exit.direction() != leap.direction() && !exit.is_unison() && exit.number() < leap.number()
}

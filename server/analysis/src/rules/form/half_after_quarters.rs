//! # What it finds
//! In fifth species, two quarters and then a half that is not tied into the next bar. The last bar
//! but one is free.
//!
//! # Why it matters
//! After quarters a half at the end of the bar sounds like a stop. The tie carries the movement
//! over the barline.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 5
//!   soprano counter |  | C5 B4 A4 - | B4 D5 |  |
//!   tenor   cantus  |  | A3         | G3    |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 5
//!   soprano counter |  | C5 - B4 A4 | B4 D5 |  |
//!   tenor   cantus  |  | A3         | G3    |  |
//! ```
//!
//! # Sources
//! Baron. Fux 1725 ties it in all cases but one.
//!
//! # Where schools differ
//! Strict teaching asks for the tie unless there is a reason; elsewhere it is advice.

use serde::Deserialize;

use crate::judge::{Heard, Matter, Report, Sight, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;
use crate::score::shares::Florid;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HalfAfterQuarters {}

impl Rule for HalfAfterQuarters {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(florid) = Florid::of(step.setting) else { return };
        // The half stands in the bar before; that of the last bar but one is free.
        if !step.is_downbeat() || step.is_last_bar() {
            return;
        }
        for voice in step.setting.written() {
            let Some(half) = stopping_half(step, florid, voice) else { continue };
            report.at(voice, half.onset, || {
                Words::new(format!(
                    "After two quarters {} stops the movement. Tie it into the next bar, or write \
                     quarters.",
                    wording::note_in(step.setting, half),
                ))
            });
        }
    }

    fn sight(&self) -> Sight {
        Sight::notes(3)
    }

    fn matter(&self) -> Matter {
        Matter::Rhythm
    }
}

/// The half that a voice leaves at the barline, if two quarters of the same bar stand before it.
fn stopping_half(step: &Step<'_>, florid: Florid, voice: VoiceId) -> Option<Heard> {
    step.struck(voice)?;
    let line = step.line(voice);
    let [first, second, half] = [line.back(3)?, line.back(2)?, line.back(1)?];
    let are_quarters = [first, second].iter().all(|note| note.duration == florid.quarter);
    let in_one_bar = step.setting.bar_of(first.onset) == step.setting.bar_of(half.onset);
    (are_quarters && in_one_bar && half.duration == florid.half).then_some(half)
}

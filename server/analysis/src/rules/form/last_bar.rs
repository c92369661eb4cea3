//! # What it finds
//! A last bar that is not one note as long as the bar, struck where the bar begins.
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

use crate::judge::{Heard, LineState, Report, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

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
            if let Some(note) = step.struck(voice).filter(|note| !is_whole(step, *note)) {
                tell_short(step, voice, note, report);
            }
            if let Some(note) = held_over(step, voice) {
                tell_held(step, voice, note, report);
            }
        }
    }
}

fn is_whole(step: &Step<'_>, note: Heard) -> bool {
    step.within_bar() == Duration::ZERO && note.duration == step.setting.bar_length()
}

/// A note that is tied into the last bar.
fn held_over(step: &Step<'_>, voice: VoiceId) -> Option<Heard> {
    let line = step.line(voice);
    let is_held = step.is_downbeat() && line.state == LineState::Holding;
    line.sounding().filter(|_| is_held)
}

fn tell_short(step: &Step<'_>, voice: VoiceId, note: Heard, report: &mut Report) {
    report.at(voice, note.onset, || {
        Words::new(format!(
            "{} lasts {}; the last bar is one long note. Write nothing else in it.",
            wording::note_in(step.setting, note),
            wording::with_article(&note.duration.to_string()),
        ))
    });
}

fn tell_held(step: &Step<'_>, voice: VoiceId, note: Heard, report: &mut Report) {
    report.at(voice, note.onset, || {
        Words::new(format!(
            "{} is tied into the last bar, which is one long note by itself. Begin a note there.",
            wording::note_in(step.setting, note),
        ))
    });
}

//! # What it finds
//! A run of notes in one direction whose outer notes are a tritone apart, where the line turns
//! without resolving it.
//!
//! # Why it matters
//! The ear keeps the turning points of a line. Where two of them make a tritone, the line sounds
//! as if it had leapt it.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | C5 | E5 | F5 | D5 | E5 |  |
//!   tenor   counter |  | F3 | G3 | A3 | B3 | G3 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | C5 | E5 | F5 | D5 | E5 |  |
//!   tenor   counter |  | F3 | G3 | A3 | B3 | C4 |  |
//! ```
//!
//! # Sources
//! Grove 1883; York (IV); Lavignac 1895. Fux 1725 frames one in figures 14, 15, 21 and 59.
//!
//! # Where schools differ
//! A caution in modal teaching. In conservatoire teaching a fault, unless the next note resolves
//! it by step.

use serde::Deserialize;

use crate::judge::{Close, Report, Run, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::{Setting, VoiceId};

/// Whether a step after it saves a framed tritone.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct FramedTritone {
    resolution: Resolution,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Resolution {
    /// A step after the outer note saves it.
    Saves,
    /// Nothing saves it.
    DoesNotSave,
}

impl Rule for FramedTritone {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        for voice in step.setting.written() {
            let Some((_, _, exit)) = step.entered(voice) else { continue };
            let Some(run) = step.before.lines[voice].run.filter(frames) else { continue };
            let goes_on = exit.direction() == run.direction;
            let saved = self.resolution == Resolution::Saves && exit.is_step();
            if !goes_on && !saved {
                tell(step.setting, voice, run, report);
            }
        }
    }

    fn close(&self, close: &Close<'_>, report: &mut Report) {
        for voice in close.setting.written() {
            if let Some(run) = close.memory.lines[voice].run.filter(frames) {
                tell(close.setting, voice, run, report);
            }
        }
    }
}

/// Whether a run frames a tritone; a single leap is told by other rules.
fn frames(run: &Run) -> bool {
    run.intervals > 1 && run.frame().is_tritone()
}

fn tell(setting: &Setting, voice: VoiceId, run: Run, report: &mut Report) {
    report.at(voice, run.to.onset, || {
        Words::new(format!(
            "The run {} frames a tritone, and the line turns in {} without resolving it. Go one \
             step further, or turn earlier.",
            wording::from_to(run.from, run.to),
            wording::place(setting, run.to.onset),
        ))
        .with(voice, run.from.onset, "the run begins here")
    });
}

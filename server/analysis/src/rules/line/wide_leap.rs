//! # What it finds
//! A leap of a seventh, or of more than an octave.
//!
//! # Why it matters
//! No voice takes it without help from an instrument; the line falls apart into two.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  | | E5 | G5 | E5 | |
//!   bass    counter | | C4 | B2 | C3 | |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  | | E5 | G5 | E5 | |
//!   bass    counter | | C4 | B3 | C4 | |
//! ```
//!
//! # Sources
//! All treatises.
//!
//! # Where schools differ
//! Only Lehmann 1907 admits a minor seventh, between two notes of one harmony.
//!
//! # Switches
//! - `minor-seventh`: whether a minor seventh may be leapt
//!   - `never`: it may not (all but Lehmann)
//!   - `inside-one-harmony`: between two notes of one harmony (Lehmann 1907)

use bicinium_theory::Interval;
use serde::Deserialize;

use crate::judge::{Report, Step, Words};
use crate::reading::HearingStep;
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// Whether a minor seventh may be leapt.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct WideLeap {
    minor_seventh: MinorSeventh,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum MinorSeventh {
    /// Never.
    Never,
    /// Between two notes of one harmony (Lehmann).
    InsideOneHarmony,
}

impl Rule for WideLeap {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        for voice in step.setting.written() {
            let Some((_, _, leap)) = step.entered(voice) else { continue };
            if is_wide(leap) && !self.depends_on_harmony(leap) {
                tell(step, voice, report);
            }
        }
    }

    fn hear(&self, step: &HearingStep<'_>, report: &mut Report) {
        for voice in step.notes.setting.written() {
            let Some((_, _, leap)) = step.notes.entered(voice) else { continue };
            let is_one_harmony =
                step.after.harmony.is_some() && step.before.harmony == step.after.harmony;
            if self.depends_on_harmony(leap) && !is_one_harmony {
                tell(&step.notes, voice, report);
            }
        }
    }
}

impl WideLeap {
    fn depends_on_harmony(&self, leap: Interval) -> bool {
        self.minor_seventh == MinorSeventh::InsideOneHarmony && leap.abs() == Interval::new(6, 10)
    }
}

/// A seventh, or more than an octave; altered sevenths and octaves are told by other rules.
fn is_wide(leap: Interval) -> bool {
    let is_altered = leap.is_augmented() || leap.is_diminished();
    leap.number() > 8 || (leap.number() == 7 && !is_altered)
}

fn tell(step: &Step<'_>, voice: VoiceId, report: &mut Report) {
    let Some((from, to, leap)) = step.entered(voice) else { return };
    report.at(voice, to.onset, || {
        Words::new(format!(
            "The line leaps {} from {} in {}. An octave is the widest leap; the other octave of {} \
             may lie nearer.",
            wording::an_interval(leap),
            wording::from_to(from, to),
            wording::place(step.setting, to.onset),
            to.pitch.class(),
        ))
        .with(voice, from.onset, "the leap begins here")
    });
}

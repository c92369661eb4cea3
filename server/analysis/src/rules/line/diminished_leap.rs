//! # What it finds
//! A leap of a diminished interval where the school does not admit it.
//!
//! # Why it matters
//! A diminished interval points inward. It may be leapt if the line obeys and turns back by step,
//! or not at all.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | A4 | D5 | A4 |  |
//!   bass    counter |  | F3 | B2 | D3 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | A4 | D5 | A4 |  |
//!   bass    counter |  | F3 | B2 | C3 |  |
//! ```
//!
//! # Sources
//! Open Music Theory and Lavignac 1895 refuse it; Bridge 1877 and Lehmann 1907 admit it with its
//! resolution.
//!
//! # Where schools differ
//! Modal: never. Tonal: if it turns back by step.

use bicinium_theory::Interval;
use serde::Deserialize;

use crate::judge::{Heard, Report, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// Whether diminished intervals may be leapt.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct DiminishedLeap {
    allowed: Allowed,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Allowed {
    /// Never (Open Music Theory, Lavignac).
    Never,
    /// If the line turns back by step (Bridge, Lehmann).
    IfItTurnsBack,
}

impl Rule for DiminishedLeap {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        for voice in step.setting.written() {
            let Some((from, to, last)) = step.entered(voice) else { continue };
            match self.allowed {
                Allowed::Never if is_diminished(last) => tell(step, voice, from, to, report),
                Allowed::IfItTurnsBack => turning_back(step, voice, last, report),
                Allowed::Never => {}
            }
        }
    }
}

/// A diminished leap before the latest interval, if that one does not turn back by step.
fn turning_back(step: &Step<'_>, voice: VoiceId, exit: Interval, report: &mut Report) {
    let line = step.line(voice);
    let (Some(leap), Some(from), Some(to)) = (line.interval(1), line.back(2), line.back(1)) else {
        return;
    };
    let turns_back = exit.is_step() && exit.direction() != leap.direction();
    if is_diminished(leap) && !turns_back {
        tell(step, voice, from, to, report);
    }
}

fn is_diminished(leap: Interval) -> bool {
    leap.is_diminished() && (3..=8).contains(&leap.number())
}

fn tell(step: &Step<'_>, voice: VoiceId, from: Heard, to: Heard, report: &mut Report) {
    report.at(voice, to.onset, || {
        let leap = Interval::between(from.pitch, to.pitch);
        Words::new(format!(
            "The leap {} in {} is {}, and the line does not turn back into it by step.",
            wording::from_to(from, to),
            wording::place(step.setting, to.onset),
            wording::an_interval(leap),
        ))
        .with(voice, from.onset, "the leap begins here")
    });
}

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
//!
//! # Switches
//! - `allowed`: whether a diminished interval may be leapt
//!   - `never`: it may not (Open Music Theory; Lavignac 1895; Fux 1725)
//!   - `only-the-fourth`: the fourth only, whatever follows (from memory)
//!   - `if-it-turns-back`: if the line turns back by step (Bridge 1877; Lehmann 1907)
//!   - `always`: whatever follows (from memory)

use bicinium_theory::Interval;
use serde::Deserialize;

use super::turn::{Turn, arrival};
use crate::judge::{Close, Heard, Report, Sight, Step, Trace, Words};
use crate::rules::{Rule, wording};
use crate::score::{Setting, VoiceId};

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
    /// The fourth only.
    OnlyTheFourth,
    /// If the line turns back by step (Bridge, Lehmann).
    IfItTurnsBack,
    /// Whatever follows.
    Always,
}

impl Rule for DiminishedLeap {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        for voice in step.setting.written() {
            let wrong = match self.allowed {
                Allowed::Never => step.entered(voice).map(|(from, to, _)| (from, to)),
                Allowed::OnlyTheFourth => {
                    let wider = step.entered(voice).filter(|(.., leap)| leap.number() != 4);
                    wider.map(|(from, to, _)| (from, to))
                }
                Allowed::IfItTurnsBack => not_turned_back(step, voice),
                Allowed::Always => None,
            };
            if let Some((from, to)) = wrong.filter(is_diminished) {
                self.tell(step.setting, voice, from, to, report);
            }
        }
    }

    fn close(&self, close: &Close<'_>, report: &mut Report) {
        if self.allowed != Allowed::IfItTurnsBack {
            return;
        }
        for voice in close.setting.written().filter(|voice| close.is_ended(*voice)) {
            let last = arrival(&close.memory.lines[voice]);
            if let Some((from, to)) = last.filter(is_diminished) {
                self.tell(close.setting, voice, from, to, report);
            }
        }
    }

    fn sight(&self) -> Sight {
        match self.allowed {
            Allowed::IfItTurnsBack => Sight::of(Trace::Turn),
            Allowed::Never | Allowed::OnlyTheFourth | Allowed::Always => Sight::LAST,
        }
    }
}

impl DiminishedLeap {
    fn tell(&self, setting: &Setting, voice: VoiceId, from: Heard, to: Heard, report: &mut Report) {
        report.at(voice, to.onset, || {
            let mend = match self.allowed {
                Allowed::Never | Allowed::OnlyTheFourth => {
                    ". Take a perfect interval or a smaller leap"
                }
                _ => ", and the line does not turn back by step. Let a step the other way follow",
            };
            Words::new(format!(
                "The leap {} in {} is {}{mend}.",
                wording::from_to(from, to),
                wording::place(setting, to.onset),
                wording::an_interval(Interval::between(from.pitch, to.pitch)),
            ))
            .with(voice, from.onset, "the leap begins here")
        });
    }
}

/// The note that the line leaves without turning back by step, after the one before it.
fn not_turned_back(step: &Step<'_>, voice: VoiceId) -> Option<(Heard, Heard)> {
    let turn = Turn::latest(step, voice).filter(|turn| !turn.is_back_by_step())?;
    Some((turn.before, turn.note))
}

fn is_diminished((from, to): &(Heard, Heard)) -> bool {
    let leap = Interval::between(from.pitch, to.pitch);
    leap.is_diminished() && (3..=8).contains(&leap.number())
}

//! # What it finds
//! A leap of a minor sixth where the school does not admit it: downward, without turning back, or
//! at all.
//!
//! # Why it matters
//! The minor sixth is the widest leap below the octave that a singer takes with ease, and only
//! upward, where the voice can prepare it.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key A aeolian
//!
//! exercise
//!   species 1
//!   soprano counter | | C5 | E4 | F4 | |
//!   tenor   cantus  | | A3 | C4 | A3 | |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key A aeolian
//!
//! exercise
//!   species 1
//!   soprano counter | | C5 | A4 | F4 | |
//!   tenor   cantus  | | A3 | C4 | A3 | |
//! ```
//!
//! # Sources
//! Lavignac 1895 (rule 9); Bridge 1877; Fux 1725 writes it downward in species 2 to 4 only.
//!
//! # Where schools differ
//! Modal teaching wants it upward, in first species turned back from as well; conservatoire
//! teaching admits it both ways.
//!
//! # Switches
//! - `allowed`: where a minor sixth may be leapt
//!   - `never`: nowhere (from memory)
//!   - `upward-if-it-turns-back`: upward, if the line then turns back by less (Lavignac 1895)
//!   - `upward`: upward (Bridge 1877; Fux 1725 in most places)
//!   - `both-ways`: both ways (Lehmann 1907)

use bicinium_theory::{Direction, Interval};
use serde::Deserialize;

use super::turn::{Turn, arrival};
use crate::judge::{Close, Heard, Report, Sight, Step, Trace, Words};
use crate::rules::{Rule, wording};
use crate::score::{Setting, VoiceId};

/// Where a minor sixth may be leapt.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct MinorSixthLeap {
    allowed: Allowed,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Allowed {
    /// Nowhere.
    Never,
    /// Upward, if the line then turns back by less (Lavignac).
    UpwardIfItTurnsBack,
    /// Upward (Bridge, Fux in most places).
    Upward,
    /// Both ways (Lehmann).
    BothWays,
}

impl Rule for MinorSixthLeap {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        for voice in step.setting.written() {
            if let Some((from, to, leap)) = step.entered(voice)
                && is_minor_sixth(leap)
                && !self.admits(leap)
            {
                let mend = "Take a smaller leap, or go by step.";
                tell(step.setting, voice, from, to, mend, report);
            }
            if let Some(turn) = Turn::latest(step, voice)
                && self.has_to_turn_back(turn.entry())
                && !turn.is_back_by_less()
            {
                let mend = "Let a step downward follow.";
                tell(step.setting, voice, turn.before, turn.note, mend, report);
            }
        }
    }

    fn close(&self, close: &Close<'_>, report: &mut Report) {
        for voice in close.setting.written().filter(|voice| close.is_ended(*voice)) {
            if let Some((from, to)) = arrival(&close.memory.lines[voice])
                && self.has_to_turn_back(Interval::between(from.pitch, to.pitch))
            {
                let mend = "Nothing follows that turns back. Come to the last note another way.";
                tell(close.setting, voice, from, to, mend, report);
            }
        }
    }

    fn sight(&self) -> Sight {
        match self.allowed {
            Allowed::UpwardIfItTurnsBack => Sight::of(Trace::Turn),
            Allowed::Never | Allowed::Upward | Allowed::BothWays => Sight::LAST,
        }
    }
}

impl MinorSixthLeap {
    fn admits(&self, leap: Interval) -> bool {
        match self.allowed {
            Allowed::Never => false,
            Allowed::UpwardIfItTurnsBack | Allowed::Upward => leap.direction() == Direction::Up,
            Allowed::BothWays => true,
        }
    }

    fn has_to_turn_back(&self, leap: Interval) -> bool {
        self.allowed == Allowed::UpwardIfItTurnsBack && is_minor_sixth(leap) && self.admits(leap)
    }
}

fn is_minor_sixth(leap: Interval) -> bool {
    leap.abs() == Interval::new(5, 8)
}

fn tell(
    setting: &Setting,
    voice: VoiceId,
    from: Heard,
    to: Heard,
    mend: &str,
    report: &mut Report,
) {
    report.at(voice, to.onset, || {
        Words::new(format!(
            "The line leaps a minor sixth from {} in {}. {mend}",
            wording::from_to(from, to),
            wording::place(setting, to.onset),
        ))
        .with(voice, from.onset, "the leap begins here")
    });
}

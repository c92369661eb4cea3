//! # What it finds
//! Fifths or octaves on the same weak beat of two neighbouring bars, both voices having moved,
//! where all four notes belong to their harmonies.
//!
//! # Why it matters
//! On weak beats the ear follows the line rather than the interval. But if all four notes stand
//! for their harmonies, the fifths or octaves are real.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano counter |  | E4 G4 | F4 A4 |  |
//!   bass    cantus  |  | C3    | D3    |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano counter |  | A4 G4 | F4 A4 |  |
//!   bass    cantus  |  | C3    | D3    |  |
//! ```
//!
//! # Sources
//! Lavignac 1895 (2.4) refuses them; Grove 1883 tolerates them; Fux 1725 writes them; that a
//! melodic note saves them is common practice.
//!
//! # Where schools differ
//! Modal teaching lets them pass. Conservatoire teaching admits them if one of the four notes only
//! passes or goes to a neighbour.

use bicinium_theory::Duration;
use serde::Deserialize;

use super::telling;
use crate::judge::{Progression, Report, Step, Words};
use crate::reading::{HearingStep, Part};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// What saves perfect consonances on neighbouring weak beats.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct AfterbeatPerfects {
    saved_by: Saved,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Saved {
    /// Nothing (Lavignac).
    Nothing,
    /// A note among the four that only embellishes.
    AMelodicNote,
}

impl Rule for AfterbeatPerfects {
    fn hear(&self, step: &HearingStep<'_>, report: &mut Report) {
        let Some(progression) = on_afterbeats(&step.notes) else { return };
        let (from, to) = (progression.from, progression.to);
        if self.saved_by == Saved::AMelodicNote
            && !(is_real(step, from.onset) && is_real(step, to.onset))
        {
            return;
        }
        report.together(to.onset, || {
            Words::new(format!(
                "{} on neighbouring afterbeats: {}, then {} in {}, and all four notes belong to \
                 their harmonies. Let one of them pass by step, or choose another interval.",
                to.perfect().map_or("Perfect consonances", |class| match class {
                    bicinium_theory::PerfectClass::Fifth => "Fifths",
                    bicinium_theory::PerfectClass::Octave => "Octaves",
                }),
                telling::pair(from),
                telling::pair(to),
                wording::place(step.notes.setting, to.onset),
            ))
            .with(VoiceId::Upper, from.onset, "the first of the two")
        });
    }
}

/// The same perfect consonance on the same weak beat of neighbouring bars, struck both times.
fn on_afterbeats(step: &Step<'_>) -> Option<Progression> {
    let (_, rest) = step.setting.meter.beat(step.within_bar());
    let progression =
        step.across_bars().filter(|_| !step.is_downbeat() && rest == Duration::ZERO)?;
    let (from, to) = (progression.from, progression.to);
    let is_same = to.perfect().is_some() && to.perfect() == from.perfect();
    let is_struck = VoiceId::BOTH.iter().any(|voice| from.strikes(*voice));
    (is_same && is_struck && progression.both_move()).then_some(progression)
}

fn is_real(step: &HearingStep<'_>, onset: Duration) -> bool {
    step.after.part_at(onset) == Some(Part::Real)
}

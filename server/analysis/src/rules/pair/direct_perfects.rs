//! # What it finds
//! A fifth or an octave into which both voices move in the same direction.
//!
//! # Why it matters
//! The ear fills in the step that was left out and hears two perfect consonances one after the
//! other.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | A4 | D5 |  |
//!   tenor   counter |  | F3 | G3 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | A4 | D5 |  |
//!   tenor   counter |  | F3 | D3 |  |
//! ```
//!
//! # Sources
//! Open Music Theory, Grove 1883, Lavignac 1895 and Fux 1725 admit none; Lehmann 1907 (10) between
//! the first and fifth degrees; Bridge 1877 with a semitone in the upper voice; the upper voice by
//! step is a lead from memory.
//!
//! # Where schools differ
//! Modal: never. Tonal: if the upper voice moves by step.

use bicinium_theory::{Interval, Motion};
use serde::Deserialize;

use super::telling;
use crate::judge::{Progression, Report, Step, Words};
use crate::reading::HearingStep;
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// What saves a direct perfect consonance.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct DirectPerfects {
    saved_by: Saved,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Saved {
    /// Nothing (Open Music Theory, Grove, Lavignac, Fux).
    Nothing,
    /// A semitone in the upper voice (Bridge).
    UpperSemitone,
    /// A step in the upper voice.
    UpperStep,
    /// The first and the fifth degree as harmonies (Lehmann).
    TonicAndDominant,
}

impl Rule for DirectPerfects {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(direct) = direct(step) else { return };
        let upper = direct.interval(VoiceId::Upper);
        let is_saved = match self.saved_by {
            Saved::Nothing => false,
            Saved::UpperSemitone => upper.abs() == Interval::new(1, 1),
            Saved::UpperStep => upper.is_step(),
            Saved::TonicAndDominant => true,
        };
        if !is_saved {
            tell(step, direct, report);
        }
    }

    fn hear(&self, step: &HearingStep<'_>, report: &mut Report) {
        if self.saved_by != Saved::TonicAndDominant {
            return;
        }
        let degree = |harmony: Option<&crate::reading::Harmony>| harmony.map(|h| h.numeral.degree);
        let degrees = (degree(step.harmony_before()), degree(step.harmony()));
        let is_saved = matches!(degrees, (Some(1), Some(5)) | (Some(5), Some(1)));
        if let Some(direct) = direct(&step.notes).filter(|_| !is_saved) {
            tell(&step.notes, direct, report);
        }
    }
}

/// The way into a perfect consonance by similar motion; two of a kind are told by another rule.
fn direct(step: &Step<'_>) -> Option<Progression> {
    let progression = step.progression()?;
    let class = progression.to.perfect()?;
    let is_new = progression.from.perfect() != Some(class);
    let is_similar = matches!(progression.motion(), Motion::Similar | Motion::Parallel);
    (is_new && is_similar).then_some(progression)
}

fn tell(step: &Step<'_>, direct: Progression, report: &mut Report) {
    let (from, to) = (direct.from, direct.to);
    report.together(to.onset, || {
        Words::new(format!(
            "Both voices move the same way into {}: {}, then {} in {}. Come to it by contrary or \
             oblique motion.",
            wording::an_interval(to.interval()),
            telling::pair(from),
            telling::pair(to),
            wording::place(step.setting, to.onset),
        ))
        .with(VoiceId::Upper, from.onset, "the voices come from here")
    });
}

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
//! the first and fifth degrees; Bridge 1877 with a semitone in the upper voice; an older American
//! manual from a third over the leading note to a fifth over the tonic; the upper voice by step is a
//! lead from memory.
//!
//! # Where schools differ
//! Modal: never. Tonal: if the upper voice moves by step. Other answers are switches.
//!
//! # Switches
//! - `saved-by`: what makes a direct fifth or octave acceptable
//!   - `nothing`: nothing (Fux 1725; Open Music Theory; Grove 1883; Lavignac 1895)
//!   - `upper-semitone`: a semitone in the upper voice (Bridge 1877)
//!   - `upper-step`: a step in the upper voice (from memory)
//!   - `leading-note-to-tonic`: a third over the leading note that goes to a fifth over the tonic
//!     (an older American manual)
//!   - `tonic-and-dominant`: the harmonies of the first and the fifth degree, one after the other
//!     (Lehmann 1907, fig. 10)

use bicinium_theory::{Interval, Motion, PerfectClass};
use serde::Deserialize;

use super::telling;
use crate::judge::{Progression, Report, Sounded, Step, Words};
use crate::reading::HearingStep;
use crate::rules::{Rule, wording};
use crate::score::{Setting, VoiceId};

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
    /// A third over the leading note going to a fifth over the tonic (an older American manual).
    LeadingNoteToTonic,
    /// The first and the fifth degree as harmonies (Lehmann).
    TonicAndDominant,
}

impl Rule for DirectPerfects {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let is_saved = |direct: &Progression| self.is_saved_by_notes(step.setting, direct);
        if let Some(direct) = direct(step).filter(|direct| !is_saved(direct)) {
            tell(step, direct, report);
        }
    }

    fn hear(&self, step: &HearingStep<'_>, report: &mut Report) {
        if self.saved_by != Saved::TonicAndDominant || is_between_tonic_and_dominant(step) {
            return;
        }
        if let Some(direct) = direct(&step.notes) {
            tell(&step.notes, direct, report);
        }
    }
}

impl DirectPerfects {
    /// Where the harmonies decide, the notes alone condemn nothing.
    fn is_saved_by_notes(&self, setting: &Setting, direct: &Progression) -> bool {
        let upper = direct.interval(VoiceId::Upper);
        match self.saved_by {
            Saved::Nothing => false,
            Saved::UpperSemitone => upper.abs() == Interval::new(1, 1),
            Saved::UpperStep => upper.is_step(),
            Saved::LeadingNoteToTonic => is_leading_note_to_tonic(setting, direct),
            Saved::TonicAndDominant => true,
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

fn is_leading_note_to_tonic(setting: &Setting, direct: &Progression) -> bool {
    let lower = |sounded: Sounded| sounded.notes.lower.pitch.class();
    direct.from.simple_number() == 3
        && direct.to.perfect() == Some(PerfectClass::Fifth)
        && lower(direct.from) == setting.key.leading_note()
        && lower(direct.to) == setting.key.tonic
}

fn is_between_tonic_and_dominant(step: &HearingStep<'_>) -> bool {
    let before = step.harmony_before().map(|harmony| harmony.numeral.degree);
    let now = step.harmony().map(|harmony| harmony.numeral.degree);
    matches!((before, now), (Some(1), Some(5)) | (Some(5), Some(1)))
}

fn tell(step: &Step<'_>, direct: Progression, report: &mut Report) {
    let (from, to) = (direct.from, direct.to);
    report.together(to.onset, || {
        Words::new(format!(
            "Both voices move the same way into {}: {}. Come to it by contrary or oblique motion.",
            wording::an_interval(to.interval()),
            telling::one_after_the_other(step.setting, from, to),
        ))
        .with(VoiceId::Upper, from.onset, "the voices come from here")
    });
}

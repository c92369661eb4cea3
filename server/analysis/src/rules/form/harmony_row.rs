//! # What it finds
//! A numeral in the harmony row that the notes under it contradict: its figures do not fit the
//! bass, or it does not hold the note of the cantus.
//!
//! # Why it matters
//! What is written in the row binds the reading. If it does not fit what sounds, every note is
//! heard against the wrong harmony.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  | | C5 | B4 | |
//!   harmony         | | I  | V6 | |
//!   tenor   counter | | C4 | G3 | |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  | | C5 | B4 | |
//!   harmony         | | I  | V  | |
//!   tenor   counter | | C4 | G3 | |
//! ```
//!
//! # Sources
//! Common practice.
//!
//! # Where schools differ
//! Modal teaching implies no harmony and does not ask.

use bicinium_theory::{Inversion, Member};
use serde::Deserialize;

use crate::judge::{Report, Words};
use crate::reading::{Harmony, HearingStep};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HarmonyRow {}

impl Rule for HarmonyRow {
    fn hear(&self, step: &HearingStep<'_>, report: &mut Report) {
        let (Some(written), Some(harmony)) = (step.written, step.harmony()) else { return };
        if let Some((voice, wrong)) = wrong_bass(step, harmony, written.numeral.inversion) {
            report.at(voice, step.notes.now.onset, || {
                Words::new(format!(
                    "The harmony row has {} in {}, but {wrong} sounds lowest and makes it {}. \
                     Change the figures or the note.",
                    written.numeral,
                    wording::place(step.notes.setting, written.onset),
                    harmony.numeral_over(harmony.member(wrong.class())),
                ))
            });
        }
        if let Some(note) = foreign_cantus(step, harmony) {
            report.together(step.notes.now.onset, || {
                Words::new(format!(
                    "The harmony row has {} in {}, but {note} of the cantus does not belong to it. \
                     Choose a numeral that holds it.",
                    written.numeral,
                    wording::place(step.notes.setting, written.onset),
                ))
            });
        }
    }
}

/// A bass that belongs to the harmony, but in another inversion than the one written.
fn wrong_bass(
    step: &HearingStep<'_>,
    harmony: &Harmony,
    inversion: Inversion,
) -> Option<(VoiceId, bicinium_theory::Pitch)> {
    let sounded = step.notes.sounded()?;
    let bass = sounded.notes[sounded.bass()].pitch;
    let member: Member = harmony.member(bass.class())?;
    (member != inversion.lowest()).then_some((sounded.bass(), bass))
}

fn foreign_cantus(step: &HearingStep<'_>, harmony: &Harmony) -> Option<bicinium_theory::Pitch> {
    let cantus = step.notes.setting.cantus?;
    let note = step.notes.line(cantus).sounding()?;
    harmony.member(note.pitch.class()).is_none().then_some(note.pitch)
}

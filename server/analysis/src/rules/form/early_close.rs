//! # What it finds
//! A close before the end: both voices come to the tonic, from the dominant to the tonic, both in
//! root position.
//!
//! # Why it matters
//! The ear takes it for the end, and what follows for an appendix. Going to the sixth degree
//! instead keeps the music open.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | B4 | C5 |  |
//!   tenor   counter |  | G3 | C3 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | B4 | C5 |  |
//!   tenor   counter |  | G3 | A3 |  |
//! ```
//!
//! # Sources
//! Common practice.
//!
//! # Where schools differ
//! Modal teaching implies no harmony and does not ask.

use bicinium_theory::PitchClass;
use serde::Deserialize;

use crate::judge::{Report, Sounded, Step, Words};
use crate::reading::{Harmony, HearingStep};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EarlyClose {}

impl Rule for EarlyClose {
    fn hear(&self, step: &HearingStep<'_>, report: &mut Report) {
        let notes = &step.notes;
        let (Some(before), Some(harmony)) = (step.harmony_before(), step.harmony()) else { return };
        let (Some(progression), false) = (notes.progression(), notes.is_last_bar()) else { return };
        let is_five_one = before.numeral.degree == 5 && harmony.is_tonic();
        let in_root_position =
            stands_on(progression.from, before) && stands_on(progression.to, harmony);
        if !is_five_one || !in_root_position || !both_on(notes, progression.to) {
            return;
        }
        let to = progression.to;
        report.together(to.onset, || {
            Words::new(format!(
                "{} goes to {} and both voices come to {} in {}: it sounds final before the end. \
                 The sixth degree in the lower voice would keep it open.",
                before.numeral,
                harmony.numeral,
                notes.setting.key.tonic,
                wording::place(notes.setting, to.onset),
            ))
            .with(VoiceId::Upper, progression.from.onset, "the dominant")
        });
    }
}

fn bass(sounded: Sounded) -> PitchClass {
    sounded.notes[sounded.bass()].pitch.class()
}

fn stands_on(sounded: Sounded, harmony: &Harmony) -> bool {
    bass(sounded) == harmony.chord.root
}

fn both_on(step: &Step<'_>, sounded: Sounded) -> bool {
    let tonic = step.setting.key.tonic;
    VoiceId::BOTH.iter().all(|voice| sounded.notes[*voice].pitch.class() == tonic)
}

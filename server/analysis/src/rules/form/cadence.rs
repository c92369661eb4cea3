//! # What it finds
//! A close without its leading note: in modal teaching, a last bar but one that does not set the
//! leading note against the second degree; in conservatoire teaching, one that does not stand for
//! the dominant with the leading note in either voice. In the phrygian mode both ask for the
//! semitone above the final against the natural seventh degree.
//!
//! # Why it matters
//! The leading note tells the ear where the end is. In the phrygian mode the semitone above the
//! final does the same.
//!
//! # Broken
//! ```bicinium
//! key A minor
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | B4 | A4 |
//!   tenor   counter |  | G3 | A3 |
//! ```
//!
//! # Mended
//! ```bicinium
//! key A minor
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | B4  | A4 |
//!   tenor   counter |  | G#3 | A3 |
//! ```
//!
//! # Sources
//! Open Music Theory; Lehmann 1907 (15b); Fux 1725 closes from M6 or m3 in all examples.
//!
//! # Where schools differ
//! Modal: leading note and second degree, a major sixth to the octave or a third to the unison.
//! Tonal: these, and V, V6 or vii°6 in any form.
//!
//! # Switches
//! - `made-by`: what leads to the last bar
//!   - `leading-note-and-second-degree`: the leading note against the second degree, so that a
//!     sixth opens to the octave or a third closes to the unison (Open Music Theory; Fux 1725)
//!   - `leading-note-and-second-or-fifth-degree`: the same, or V–I with the leading note a third
//!     over the fifth degree (Lehmann 1907, fig. 15b)
//!   - `an-imperfect-consonance`: any third or sixth (common practice, before the cadence is taught)
//!   - `the-dominant`: the same, or V, V6 or vii°6 with the leading note in either voice (common
//!     practice)

use bicinium_theory::{Duration, Key, Mode, PitchClass};
use serde::Deserialize;

use crate::judge::{Progression, Report, Sight, Step, Words};
use crate::reading::HearingStep;
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// What makes a cadence.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Cadence {
    made_by: MadeBy,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum MadeBy {
    /// The leading note against the second degree.
    LeadingNoteAndSecondDegree,
    /// The same, or the leading note a third over the fifth degree.
    LeadingNoteAndSecondOrFifthDegree,
    /// Any third or sixth.
    AnImperfectConsonance,
    /// The same, or the dominant with the leading note in either voice.
    TheDominant,
}

impl Rule for Cadence {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(progression) = close(step) else { return };
        let key = step.setting.key;
        let (is_made, against) = match self.made_in(key) {
            MadeBy::TheDominant => return,
            MadeBy::AnImperfectConsonance => {
                (progression.from.interval().is_imperfect(), String::new())
            }
            MadeBy::LeadingNoteAndSecondDegree => {
                (is_modal(key, progression), key.scale()[1].to_string())
            }
            MadeBy::LeadingNoteAndSecondOrFifthDegree => (
                is_modal(key, progression) || is_over_the_fifth(key, progression),
                format!("{}, or over {}", key.scale()[1], key.scale()[4]),
            ),
        };
        if !is_made {
            tell(step, progression, report, || match against.as_str() {
                "" => "write a third or a sixth".to_owned(),
                against => format!("set {} against {against}", cadential_seventh(key)),
            });
        }
    }

    fn hear(&self, step: &HearingStep<'_>, report: &mut Report) {
        let notes = &step.notes;
        let (Some(progression), Some(harmony)) = (close(notes), step.harmony_before()) else {
            return;
        };
        let key = notes.setting.key;
        if self.made_in(key) != MadeBy::TheDominant || is_modal(key, progression) {
            return;
        }
        if !is_bar_known(notes) {
            return;
        }
        if !harmony.is_dominant() || !leading_note_sounds(notes) {
            let leading = key.leading_note();
            tell(notes, progression, report, || {
                format!("lead to the end from the dominant, with {leading}")
            });
        }
    }

    fn sight(&self) -> Sight {
        Sight::bars(1)
    }
}

impl Cadence {
    /// What makes a cadence in a key: phrygian has no leading note below its final, and so no
    /// dominant to close from.
    fn made_in(&self, key: Key) -> MadeBy {
        match (key.mode, self.made_by) {
            (_, MadeBy::AnImperfectConsonance) => MadeBy::AnImperfectConsonance,
            (Mode::Phrygian, _) => MadeBy::LeadingNoteAndSecondDegree,
            (_, made_by) => made_by,
        }
    }
}

/// The way into the last bar.
fn close(step: &Step<'_>) -> Option<Progression> {
    let is_close = step.is_last_bar() && step.is_downbeat();
    step.progression().filter(|_| is_close)
}

fn is_modal(key: Key, progression: Progression) -> bool {
    let classes = VoiceId::BOTH.map(|voice| progression.from.notes[voice].pitch.class());
    let wanted = [cadential_seventh(key), key.scale()[1]];
    classes == wanted || classes == [wanted[1], wanted[0]]
}

fn is_over_the_fifth(key: Key, progression: Progression) -> bool {
    let notes = progression.from.notes;
    let classes = [notes.upper.pitch.class(), notes.lower.pitch.class()];
    classes == [key.leading_note(), key.scale()[4]]
}

/// The leading note; in the phrygian mode, which leads from above, the natural seventh degree.
fn cadential_seventh(key: Key) -> PitchClass {
    match key.mode {
        Mode::Phrygian => key.scale()[6],
        _ => key.leading_note(),
    }
}

fn penultimate(step: &Step<'_>) -> Duration {
    step.setting.bar_start(step.bar().saturating_sub(1))
}

/// Whether every note of the last bar but one is written.
fn is_bar_known(step: &Step<'_>) -> bool {
    VoiceId::BOTH.into_iter().all(|voice| {
        let first = step.before.lines[voice].notes().first();
        first.is_some_and(|note| note.onset <= penultimate(step))
    })
}

fn leading_note_sounds(step: &Step<'_>) -> bool {
    let leading = step.setting.key.leading_note();
    VoiceId::BOTH.into_iter().any(|voice| {
        let notes = step.before.lines[voice].notes().iter();
        let mut in_bar = notes.filter(|note| note.end() > penultimate(step));
        in_bar.any(|note| note.pitch.class() == leading)
    })
}

fn tell(
    step: &Step<'_>,
    progression: Progression,
    report: &mut Report,
    remedy: impl FnOnce() -> String,
) {
    let from = progression.from;
    report.together(from.onset, || {
        Words::new(format!(
            "{} over {} in {} does not lead to the close. In the last bar but one, {}.",
            from.notes.upper.pitch,
            from.notes.lower.pitch,
            wording::place(step.setting, from.onset),
            remedy(),
        ))
        .with(VoiceId::Upper, progression.to.onset, "the close")
    });
}

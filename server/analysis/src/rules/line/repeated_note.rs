//! # What it finds
//! More equal notes in a row than the school admits: in first species a few, in the others none.
//!
//! # Why it matters
//! A line lives by moving. In first species an equal note may be a moment of rest; where the
//! counter has more notes than the cantus it only marks time.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano cantus  |  | E5    | F5    |  |
//!   tenor   counter |  | C4 C4 | A3 F3 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano cantus  |  | E5    | F5    |  |
//!   tenor   counter |  | C4 B3 | A3 F3 |  |
//! ```
//!
//! # Sources
//! Open Music Theory (once); Lavignac 1895 (two equal notes, rule 5); Lehmann 1907 (three in the
//! upper part); Fux 1725 (up to three, figure 15).
//!
//! # Where schools differ
//! How many are admitted in first species.
//!
//! # Switches
//! - `at-most`: how many equal notes may stand in a row, a whole number from 1 on
//!   - `1`: one: no note is struck again (all, from second species on)
//!   - `2`: two, in first species (Open Music Theory; Lavignac 1895)
//!   - `3`: three, in first species (Fux 1725, fig. 15)
//! - `more-above`: how many more are admitted in the upper voice, a whole number
//!   - `0`: none: both voices alike (Open Music Theory; Lavignac 1895; Fux 1725)
//!   - `1`: one more (from memory)
//!   - `2`: two more, so that three equal notes may stand in the upper voice alone (Lehmann 1907)

use std::num::NonZeroU32;

use serde::Deserialize;

use crate::judge::{Report, Sight, Words};
use crate::reading::HearingStep;
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// How many equal notes may stand in a row.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct RepeatedNote {
    at_most: NonZeroU32,
    more_above: u32,
}

impl Rule for RepeatedNote {
    fn hear(&self, heard: &HearingStep<'_>, report: &mut Report) {
        let step = &heard.notes;
        // Between a suspension and its resolution either may be struck twice.
        for voice in step.setting.written().filter(|voice| !heard.before.is_suspended(*voice)) {
            let most = self.most(voice);
            let is_too_often = step.line(voice).equal_notes == most.saturating_add(1);
            let (Some((from, to, _)), true) = (step.entered(voice), is_too_often) else { continue };
            report.at(voice, to.onset, || {
                let limit = match most {
                    1 => "a note is not struck again here".to_owned(),
                    most => format!("at most {most} equal notes may follow each other"),
                };
                Words::new(format!(
                    "{} is struck again in {}: {limit}. Move to another note.",
                    to.pitch,
                    wording::place(step.setting, to.onset),
                ))
                .with(voice, from.onset, "the note before")
            });
        }
    }

    fn sight(&self) -> Sight {
        Sight::again(self.most(VoiceId::Upper).saturating_add(2))
    }
}

impl RepeatedNote {
    fn most(&self, voice: VoiceId) -> u32 {
        match voice {
            VoiceId::Upper => self.at_most.get().saturating_add(self.more_above),
            VoiceId::Lower => self.at_most.get(),
        }
    }
}

//! # What it finds
//! Both voices leap at once: in the same direction, or both by more than a third.
//!
//! # Why it matters
//! Where both lines leap, neither holds the other; the music jumps as a block.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | E5 | G5 |  |
//!   tenor   counter |  | C4 | E4 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | E5 | G5 |  |
//!   tenor   counter |  | C4 | B3 |  |
//! ```
//!
//! # Sources
//! Common practice. From opposite sides into an octave or a fifth: Lehmann 1907 (11).
//!
//! # Where schools differ
//! A matter of taste in most. Lehmann forbids it where the voices leap from opposite sides into an
//! octave or a fifth.
//!
//! # Switches
//! - `counted`: which leaps of both voices at once are counted
//!   - `the-same-way-or-wide`: leaps the same way, and leaps wider than a third in both voices
//!     (common practice)
//!   - `apart-into-perfects`: leaps from opposite sides into an octave or a fifth (Lehmann 1907)

use serde::Deserialize;

use super::telling;
use crate::judge::{Progression, Report, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// Which leaps of both voices at once are counted.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct LeapsTogether {
    counted: Counted,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Counted {
    /// Leaps the same way, and leaps that are wider than a third in both voices.
    TheSameWayOrWide,
    /// Leaps from opposite sides into an octave or a fifth (Lehmann).
    ApartIntoPerfects,
}

impl Rule for LeapsTogether {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(progression) = step.progression() else { return };
        let leaps = VoiceId::BOTH.iter().all(|voice| progression.interval(*voice).is_leap());
        if !leaps || !self.counts(progression) {
            return;
        }
        let to = progression.to;
        report.together(to.onset, || {
            Words::new(format!(
                "Both voices leap to {} in {}. Let one of them move by step or stay.",
                telling::pair(to),
                wording::place(step.setting, to.onset),
            ))
            .with(VoiceId::Upper, progression.from.onset, "the voices come from here")
        });
    }
}

impl LeapsTogether {
    fn counts(&self, leaps: Progression) -> bool {
        let upper = leaps.interval(VoiceId::Upper);
        let lower = leaps.interval(VoiceId::Lower);
        let is_same_way = upper.direction() == lower.direction();
        match self.counted {
            Counted::TheSameWayOrWide => is_same_way || (upper.number() > 3 && lower.number() > 3),
            Counted::ApartIntoPerfects => !is_same_way && leaps.to.perfect().is_some(),
        }
    }
}

//! # What it finds
//! A cantus that comes to its last note otherwise than by step.
//!
//! # Why it matters
//! The step to the tonic is the cantus's half of the cadence; without it the other voice cannot close.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   tenor cantus | C4 | D4 | F4 | E4 | D4 | G4 | F4 | D4 | E4 | C4 |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   tenor cantus | C4 | D4 | F4 | E4 | D4 | G4 | F4 | E4 | D4 | C4 |
//! ```
//!
//! # Sources
//! Open Music Theory, chapter on cantus firmus; the cantus of Fux 1725.
//!
//! # Where schools differ
//! Fux always comes from above.
//!
//! # Switches
//! - `by-step`: from which side the last note is reached
//!   - `from-either-side`: from above or from below (Open Music Theory)
//!   - `from-above`: from above only (Fux 1725)

use bicinium_theory::{Direction, Interval};
use serde::Deserialize;

use crate::judge::{Report, Step, Words};
use crate::rules::{Rule, wording};

/// From which side the last note is reached.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct CantusClose {
    by_step: Side,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Side {
    /// From above or from below.
    FromEitherSide,
    /// From above only.
    FromAbove,
}

impl Rule for CantusClose {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(voice) = step.setting.alone.filter(|_| step.is_last_bar()) else { return };
        let Some((from, to, interval)) = step.entered(voice) else { return };
        if self.by_step.admits(interval) {
            return;
        }
        report.at(voice, to.onset, || {
            Words::new(format!(
                "The cantus comes to its last note by {}, {}. Come to it by step{}.",
                wording::an_interval(interval),
                wording::from_to(from, to),
                self.by_step.words(),
            ))
            .with(voice, from.onset, "the note before")
        });
    }
}

impl Side {
    fn admits(self, interval: Interval) -> bool {
        let is_from_above = interval.direction() == Direction::Down;
        interval.is_step() && (self == Self::FromEitherSide || is_from_above)
    }

    /// What is added to "by step".
    fn words(self) -> &'static str {
        match self {
            Self::FromEitherSide => "",
            Self::FromAbove => " from above",
        }
    }
}

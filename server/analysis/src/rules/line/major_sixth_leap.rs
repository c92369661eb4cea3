//! # What it finds
//! A leap of a major sixth where the school does not admit it.
//!
//! # Why it matters
//! It is wide and hard to hit; older schools avoid it altogether, later ones let it pass inside a
//! bar, where both notes stand in one harmony.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  | | E5 | F5 | E5 | |
//!   bass    counter | | C3 | A3 | G3 | |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  | | E5 | F5 | E5 | |
//!   bass    counter | | C4 | A3 | G3 | |
//! ```
//!
//! # Sources
//! Grove 1883, Lavignac 1895 and Fux 1725 refuse it; Bridge 1877 admits it inside a bar; Lehmann
//! 1907 anywhere.
//!
//! # Where schools differ
//! Modal: never. Tonal: inside a bar from second species on.
//!
//! # Switches
//! - `allowed`: where a major sixth may be leapt
//!   - `never`: nowhere (Grove 1883; Lavignac 1895; Fux 1725)
//!   - `inside-a-bar`: between two notes of one bar, which is from second species on (Bridge 1877)
//!   - `always`: anywhere (Lehmann 1907)

use bicinium_theory::Interval;
use serde::Deserialize;

use crate::judge::{Report, Step, Words};
use crate::rules::{Rule, wording};

/// Where a major sixth may be leapt.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct MajorSixthLeap {
    allowed: Allowed,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Allowed {
    /// Nowhere (Grove, Lavignac, Fux).
    Never,
    /// Between two notes that sound in one bar (Bridge).
    InsideABar,
    /// Anywhere (Lehmann).
    Always,
}

impl Rule for MajorSixthLeap {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        for voice in step.setting.written() {
            let Some((from, to, leap)) = step.entered(voice) else { continue };
            if leap.abs() != Interval::new(5, 9) || self.admits(step) {
                continue;
            }
            report.at(voice, to.onset, || {
                Words::new(format!(
                    "The line leaps a major sixth from {} in {}. Take a smaller leap, or go by \
                     step.",
                    wording::from_to(from, to),
                    wording::place(step.setting, to.onset),
                ))
                .with(voice, from.onset, "the leap begins here")
            });
        }
    }
}

impl MajorSixthLeap {
    fn admits(&self, step: &Step<'_>) -> bool {
        match self.allowed {
            Allowed::Never => false,
            Allowed::InsideABar => !step.is_downbeat(),
            Allowed::Always => true,
        }
    }
}

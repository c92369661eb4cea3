//! # What it finds
//! Two leaps in one direction whose outer notes are a seventh or a ninth apart, or as far as the
//! school says.
//!
//! # Why it matters
//! Three notes that go on in leaps are heard together; if they span a seventh or a ninth, that
//! dissonance is what remains.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter |  | E4 | G4 | D5 | C5 |  |
//!   tenor   cantus  |  | C4 | E4 | F4 | E4 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter |  | E4 | G4 | A4 | C5 |  |
//!   tenor   cantus  |  | C4 | E4 | F4 | E4 |  |
//! ```
//!
//! # Sources
//! Lehmann 1907 (9); Open Music Theory.
//!
//! # Where schools differ
//! Lehmann 1907 (9) admits nothing beyond the octave; others count the seventh and the ninth.
//!
//! # Switches
//! - `counted`: which frames are counted
//!   - `sevenths-and-ninths`: sevenths and ninths (Open Music Theory)
//!   - `sevenths-and-all-beyond-the-octave`: sevenths and all that is wider than an octave (Lehmann
//!     1907)

use bicinium_theory::Interval;
use serde::Deserialize;

use crate::judge::{Report, Sight, Step, Words};
use crate::rules::{Rule, wording};

/// Which frames are counted.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct FramedSeventh {
    counted: Counted,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Counted {
    /// Sevenths and ninths.
    SeventhsAndNinths,
    /// Sevenths and all that is wider than an octave.
    SeventhsAndAllBeyondTheOctave,
}

impl Rule for FramedSeventh {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        for voice in step.setting.written() {
            let line = step.line(voice);
            let (Some((_, to, last)), Some(first)) = (step.entered(voice), line.interval(1)) else {
                continue;
            };
            let Some(from) = line.back(2).filter(|_| goes_on(first, last)) else { continue };
            let frame = Interval::between(from.pitch, to.pitch);
            if !self.counts(frame) {
                continue;
            }
            report.at(voice, to.onset, || {
                Words::new(format!(
                    "Two leaps in one direction, {}, frame {} in {}. Turn back after the first, or \
                     take a step.",
                    wording::from_to(from, to),
                    wording::an_interval(frame),
                    wording::place(step.setting, to.onset),
                ))
                .with(voice, from.onset, "the first leap begins here")
            });
        }
    }

    fn sight(&self) -> Sight {
        Sight::notes(2)
    }
}

impl FramedSeventh {
    fn counts(&self, frame: Interval) -> bool {
        match self.counted {
            Counted::SeventhsAndNinths => matches!(frame.number(), 7 | 9),
            Counted::SeventhsAndAllBeyondTheOctave => frame.number() == 7 || frame.number() > 8,
        }
    }
}

fn goes_on(first: Interval, last: Interval) -> bool {
    first.is_leap() && last.is_leap() && first.direction() == last.direction()
}

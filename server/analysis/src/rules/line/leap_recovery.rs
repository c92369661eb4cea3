//! # What it finds
//! A leap of a fourth or more that is not followed by a step, or a smaller leap, the other way.
//!
//! # Why it matters
//! A wide leap opens a gap and a tension; turning back into the gap fills it and keeps the line
//! singable.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  | | E5 | F5 | G5 | |
//!   tenor   counter | | C4 | F3 | E3 | |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  | | E5 | F5 | G5 | |
//!   tenor   counter | | C4 | D4 | E4 | |
//! ```
//!
//! # Sources
//! Open Music Theory, chapter on cantus firmus; Bridge 1877; for the octave: common practice.
//!
//! # Where schools differ
//! Fux often goes on in the direction of the leap, so no school makes it a fault.
//!
//! # Switches
//! - `smallest`: from which leap on, by the number of the interval
//!   - `4`: from the fourth on (Open Music Theory; Bridge 1877)
//!   - `5`: from the fifth on (from memory)
//!   - `8`: the octave only (common practice)
//! - `made-good-by`: what has to follow the other way
//!   - `a-step-or-a-smaller-leap`: a step, or a leap smaller than the first (Open Music Theory;
//!     Bridge 1877)
//!   - `a-step`: a step (common practice, for the octave)
//!   - `a-step-at-once`: a step, which is not put off by striking the note again (from memory)

use serde::Deserialize;

use super::turn::Turn;
use crate::judge::{Report, Sight, Step, Trace, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// Which leaps are to be made good, and by what.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct LeapRecovery {
    smallest: u16,
    made_good_by: MadeGood,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
enum MadeGood {
    /// A step the other way.
    #[serde(rename = "a-step")]
    Step,
    /// A step the other way, right after the leap.
    #[serde(rename = "a-step-at-once")]
    AtOnce,
    /// A step or a smaller leap the other way.
    #[serde(rename = "a-step-or-a-smaller-leap")]
    SmallerLeap,
}

impl Rule for LeapRecovery {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        for voice in step.setting.written() {
            let Some(turn) = self.turn(step, voice) else { continue };
            let leap = turn.entry();
            if leap.number() < self.smallest || self.is_made_good(turn) {
                continue;
            }
            report.at(voice, turn.note.onset, || {
                Words::new(format!(
                    "The leap {}, {}, is not made good: {} goes on to {}. A step the other way \
                     would balance it.",
                    wording::from_to(turn.before, turn.note),
                    wording::an_interval(leap),
                    turn.note.pitch,
                    turn.after.pitch,
                ))
                .with(voice, turn.after.onset, "the line goes on here")
            });
        }
    }

    fn sight(&self) -> Sight {
        match self.made_good_by {
            MadeGood::AtOnce => Sight::notes(2),
            MadeGood::Step | MadeGood::SmallerLeap => Sight::of(Trace::Turn),
        }
    }
}

impl LeapRecovery {
    /// How the line leaves the note that it has come to.
    fn turn(&self, step: &Step<'_>, voice: VoiceId) -> Option<Turn> {
        match self.made_good_by {
            MadeGood::AtOnce => Turn::of_notes(step, voice),
            MadeGood::Step | MadeGood::SmallerLeap => Turn::latest(step, voice),
        }
    }

    fn is_made_good(&self, turn: Turn) -> bool {
        match self.made_good_by {
            MadeGood::Step | MadeGood::AtOnce => turn.is_back_by_step(),
            MadeGood::SmallerLeap => turn.is_back_by_less(),
        }
    }
}

//! # What it finds
//! An opening that does not establish the tonic: with the counter above, an interval other than
//! unison, fifth or octave; with the counter below, one other than unison or octave, unless a
//! fifth puts it on the tonic.
//!
//! # Why it matters
//! The first harmony says what the home of the music is. A third or sixth, or a lower voice off
//! the tonic, leaves it open.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  | C5 | B4 |  |
//!   tenor   counter | A3 | G3 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  | C5 | B4 |  |
//!   tenor   counter | C4 | G3 |  |
//! ```
//!
//! # Sources
//! Open Music Theory; Cherubini 1835 (1); Lavignac 1895 (2); Lehmann 1907; below: Bridge 1877,
//! York, common practice.
//!
//! # Where schools differ
//! They do not, where both voices begin together; a school may list other intervals. After a rest
//! see opening-after-rest.
//!
//! # Switches
//! - `above`: the intervals that a counter above the cantus may begin with, a list of `octave`,
//!   `fifth`, `third` and `sixth`
//!   - `["octave", "fifth"]`: a unison, a fifth or an octave (Open Music Theory; Cherubini 1835;
//!     Lavignac 1895; Lehmann 1907)
//!   - `["octave", "fifth", "third", "sixth"]`: any consonance (from memory)
//! - `below`: the same for a counter below the cantus, where a fifth on the tonic is free in any
//!   case
//!   - `["octave"]`: a unison or an octave (Open Music Theory; Bridge 1877; an older American
//!     manual; common practice)
//!   - `["octave", "fifth"]`: a fifth as well, also off the tonic (from memory)

use bicinium_theory::{Duration, PerfectClass};
use serde::Deserialize;

use crate::judge::{Report, Sounded, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// The intervals that may open, above the cantus and below it.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct OpeningInterval {
    above: Vec<Opening>,
    below: Vec<Opening>,
}

/// An interval with its compounds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Opening {
    /// A unison or octave.
    Octave,
    /// A perfect fifth.
    Fifth,
    /// A third.
    Third,
    /// A sixth.
    Sixth,
}

impl Rule for OpeningInterval {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let (Some(cantus), Some(now)) = (step.setting.cantus, step.sounded()) else { return };
        let counter = cantus.other();
        if step.now.onset != Duration::ZERO || self.admits(step, now, counter) {
            return;
        }
        report.at(counter, now.onset, || {
            let side = match counter {
                VoiceId::Upper => "over",
                VoiceId::Lower => "under",
            };
            Words::new(format!(
                "The opening is {}, {} over {}. Begin with {} {side} the cantus.",
                wording::an_interval(now.interval()),
                now.notes.upper.pitch,
                now.notes.lower.pitch,
                listed(self.openings(counter)),
            ))
            .with(cantus, now.onset, "the first note of the cantus")
        });
    }
}

impl OpeningInterval {
    fn openings(&self, counter: VoiceId) -> &[Opening] {
        match counter {
            VoiceId::Upper => &self.above,
            VoiceId::Lower => &self.below,
        }
    }

    fn admits(&self, step: &Step<'_>, now: Sounded, counter: VoiceId) -> bool {
        let bass = now.notes.lower.pitch.class();
        let is_on_tonic = counter == VoiceId::Lower && bass == step.setting.key.tonic;
        let is_listed = self.openings(counter).iter().any(|opening| opening.is(now));
        is_listed || (is_on_tonic && Opening::Fifth.is(now))
    }
}

impl Opening {
    fn is(self, now: Sounded) -> bool {
        let simple = now.interval().simple();
        let is_named = |number| simple.number() == number && simple.is_consonant();
        let is_uncrossed = now.bass() == VoiceId::Lower;
        match self {
            Self::Octave => now.perfect() == Some(PerfectClass::Octave),
            Self::Fifth => is_uncrossed && is_named(5),
            Self::Third => is_uncrossed && is_named(3),
            Self::Sixth => is_uncrossed && is_named(6),
        }
    }

    fn words(self) -> &'static str {
        match self {
            Self::Octave => "a unison or octave",
            Self::Fifth => "a fifth",
            Self::Third => "a third",
            Self::Sixth => "a sixth",
        }
    }
}

/// "a unison or octave, or a fifth".
fn listed(openings: &[Opening]) -> String {
    openings.iter().map(|opening| opening.words()).collect::<Vec<_>>().join(", or ")
}

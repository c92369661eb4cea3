//! # What it finds
//! The same perfect consonance on the beginnings of two neighbouring bars, both voices having
//! moved, with only weaker notes between.
//!
//! # Why it matters
//! The strong beats carry the progression; what stands between them on weak beats does not hide
//! that it is made of fifths or octaves.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano cantus  |  | C5    | D5    |  |
//!   tenor   counter |  | F3 A3 | G3 B3 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano cantus  |  | C5    | D5    |  |
//!   tenor   counter |  | F3 A3 | F3 D3 |  |
//! ```
//!
//! # Sources
//! Fux 1725 (figures 36, 40, 42) and Cherubini 1835 (rule 11) let a leap of a fourth save it;
//! Lehmann 1907 (68) a tie; Lavignac 1895 nothing.
//!
//! # Where schools differ
//! What saves it: in modal teaching a leap of a fourth or more between, or a tie; in conservatoire
//! teaching a tie.
//!
//! # Switches
//! - `saved-by`: what makes fifths or octaves on neighbouring strong beats acceptable
//!   - `nothing`: nothing (Lavignac 1895; Open Music Theory; an older American manual)
//!   - `leap`: a leap of a fourth or more between the two (Cherubini 1835)
//!   - `tie`: a tie into the second (Lehmann 1907, fig. 68)
//!   - `leap-or-tie`: either (Fux 1725)

use bicinium_theory::Interval;
use serde::Deserialize;

use super::telling;
use crate::judge::{Progression, Report, Sight, Step, Words};
use crate::rules::Rule;
use crate::score::VoiceId;

/// What saves perfect consonances on neighbouring strong beats.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct DownbeatPerfects {
    saved_by: Saved,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Saved {
    /// Nothing (Lavignac).
    Nothing,
    /// A leap of a fourth or more between (Cherubini).
    Leap,
    /// A tie into the second (Lehmann).
    Tie,
    /// Either (Fux).
    LeapOrTie,
}

impl Rule for DownbeatPerfects {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(progression) = step.across_bars().filter(|_| step.is_downbeat()) else { return };
        let (from, to) = (progression.from, progression.to);
        let is_same = to.perfect().is_some() && to.perfect() == from.perfect();
        if !is_same || !progression.both_move() || is_adjacent(step, progression) {
            return;
        }
        if self.is_saved(step, progression) {
            return;
        }
        report.together(to.onset, || {
            Words::new(format!(
                "{} on the strong beats of neighbouring bars: {}. Put another consonance on one of \
                 the two beats.",
                telling::kind(from, to),
                telling::one_after_the_other(step.setting, from, to),
            ))
            .with(VoiceId::Upper, from.onset, "the first of the two")
        });
    }

    fn sight(&self) -> Sight {
        match self.saved_by {
            Saved::Nothing | Saved::Tie => Sight::perfects_on_downbeats(1),
            Saved::Leap | Saved::LeapOrTie => Sight::bars(1),
        }
    }
}

impl DownbeatPerfects {
    fn is_saved(&self, step: &Step<'_>, progression: Progression) -> bool {
        let by_leap = || has_leap_between(step, progression);
        let by_tie = || VoiceId::BOTH.iter().any(|voice| !progression.to.strikes(*voice));
        match self.saved_by {
            Saved::Nothing => false,
            Saved::Leap => by_leap(),
            Saved::Tie => by_tie(),
            Saved::LeapOrTie => by_leap() || by_tie(),
        }
    }
}

/// Whether nothing stands between the two; then other rules speak.
fn is_adjacent(step: &Step<'_>, progression: Progression) -> bool {
    step.progression() == Some(progression)
}

/// Whether a voice leaps a fourth or more between the first and the second, be it from a note that
/// has been tied into the first.
fn has_leap_between(step: &Step<'_>, progression: Progression) -> bool {
    let (start, end) = (progression.from.onset, progression.to.onset);
    VoiceId::BOTH.into_iter().any(|voice| {
        let notes = step.line(voice).notes().windows(2);
        let mut inside = notes.filter(|pair| start < pair[1].onset && pair[1].onset < end);
        inside.any(|pair| Interval::between(pair[0].pitch, pair[1].pitch).number() >= 4)
    })
}

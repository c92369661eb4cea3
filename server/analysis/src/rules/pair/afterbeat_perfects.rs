//! # What it finds
//! Fifths or octaves on the same weak beat of two neighbouring bars, both voices having moved,
//! where all four notes belong to their harmonies.
//!
//! # Why it matters
//! On weak beats the ear follows the line rather than the interval. But if all four notes stand
//! for their harmonies, the fifths or octaves are real.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano counter |  | E4 G4 | F4 A4 |  |
//!   bass    cantus  |  | C3    | D3    |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano counter |  | A4 G4 | F4 A4 |  |
//!   bass    cantus  |  | C3    | D3    |  |
//! ```
//!
//! # Sources
//! Lavignac 1895 (2.4) refuses them; Lehmann 1907 (28) admits the second from the other side than
//! the first; Grove 1883 tolerates them; Fux 1725 writes them; that a melodic note saves them is
//! common practice.
//!
//! # Where schools differ
//! Modal teaching lets them pass. Conservatoire teaching admits them if one of the four notes only
//! passes or goes to a neighbour.
//!
//! # Switches
//! - `saved-by`: what makes fifths or octaves on neighbouring weak beats acceptable; who tolerates
//!   all of them, as Grove 1883 and Fux 1725 do, switches the rule off
//!   - `nothing`: nothing (Lavignac 1895)
//!   - `a-melodic-note`: a note among the four that only embellishes (common practice)
//!   - `the-other-side`: a voice that comes to the second from the other side than to the first
//!     (Lehmann 1907, fig. 28)

use bicinium_theory::{Direction, Duration, Interval};
use serde::Deserialize;

use super::telling;
use crate::judge::{Heard, Progression, Report, Sight, Sounded, Step, Trace, Words};
use crate::reading::{HearingStep, Part};
use crate::rules::{Rule, wording};
use crate::score::{Setting, VoiceId};

/// What saves perfect consonances on neighbouring weak beats.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct AfterbeatPerfects {
    saved_by: Saved,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Saved {
    /// Nothing (Lavignac).
    Nothing,
    /// A note among the four that only embellishes.
    AMelodicNote,
    /// A voice that comes to the second from the other side than to the first (Lehmann).
    TheOtherSide,
}

/// What saves two of them.
enum Reason {
    /// This note only embellishes.
    Melodic(Heard),
    /// A voice comes from the other side.
    OtherSide,
}

impl Rule for AfterbeatPerfects {
    fn hear(&self, step: &HearingStep<'_>, report: &mut Report) {
        let Some(progression) = on_afterbeats(&step.notes) else { return };
        let Progression { from, to } = progression;
        if let Some(reason) = self.saving(step, progression) {
            return report
                .admit_together(to.onset, || admitted(step.notes.setting, progression, &reason));
        }
        report.together(to.onset, || {
            Words::new(format!(
                "{} on the same weak beat of neighbouring bars: {}{}.",
                telling::kind(from, to),
                telling::one_after_the_other(step.notes.setting, from, to),
                self.remedy(),
            ))
            .with(VoiceId::Upper, from.onset, "the first of the two")
        });
    }

    fn sight(&self) -> Sight {
        match self.saved_by {
            Saved::Nothing => Sight::perfects_on_beats(1),
            Saved::AMelodicNote => Sight::perfects_on_beats(1).and(Sight::of(Trace::Functions)),
            Saved::TheOtherSide => Sight::perfects_on_beats(1).and(Sight::bars(2)),
        }
    }
}

impl AfterbeatPerfects {
    fn saving(&self, step: &HearingStep<'_>, progression: Progression) -> Option<Reason> {
        let Progression { from, to } = progression;
        match self.saved_by {
            Saved::Nothing => None,
            Saved::AMelodicNote => {
                [to, from].into_iter().find_map(|at| melodic_note(step, at)).map(Reason::Melodic)
            }
            Saved::TheOtherSide => {
                is_from_the_other_side(&step.notes, progression).then_some(Reason::OtherSide)
            }
        }
    }

    fn remedy(&self) -> &'static str {
        match self.saved_by {
            Saved::Nothing => ". Choose another interval on one of the two beats",
            Saved::AMelodicNote => {
                ", and all four notes belong to their harmonies. Let one of them pass by step, or \
                 choose another interval"
            }
            Saved::TheOtherSide => {
                ", reached from the same side both times. Come to the second from the other side, \
                 or choose another interval"
            }
        }
    }
}

fn melodic_note(step: &HearingStep<'_>, at: Sounded) -> Option<Heard> {
    match step.after.part_at(at.onset)? {
        Part::Real => None,
        Part::Melodic(voice) => Some(at.notes[voice]),
    }
}

fn admitted(setting: &Setting, progression: Progression, reason: &Reason) -> String {
    let Progression { from, to } = progression;
    let reason = match reason {
        Reason::Melodic(note) => {
            format!("{} only embellishes", wording::note_in(setting, *note))
        }
        Reason::OtherSide => {
            "a voice comes to the second from the other side than to the first".to_owned()
        }
    };
    format!(
        "{} on the same weak beat of neighbouring bars, {}, are admitted: {reason}.",
        telling::kind(from, to),
        telling::one_after_the_other(setting, from, to),
    )
}

/// The same perfect consonance on the same weak beat of neighbouring bars, struck both times.
fn on_afterbeats(step: &Step<'_>) -> Option<Progression> {
    let (_, behind_beat) = step.setting.meter.beat(step.within_bar());
    let is_weak_beat = !step.is_downbeat() && behind_beat == Duration::ZERO;
    let progression = step.across_bars().filter(|_| is_weak_beat)?;
    let (from, to) = (progression.from, progression.to);
    let is_same = to.perfect().is_some() && to.perfect() == from.perfect();
    (is_same && from.is_struck() && progression.both_move()).then_some(progression)
}

/// Whether a voice that moves on both beats rises to the one and falls to the other.
fn is_from_the_other_side(step: &Step<'_>, progression: Progression) -> bool {
    VoiceId::BOTH.into_iter().any(|voice| {
        let first = approach(step, voice, progression.from);
        let second = approach(step, voice, progression.to);
        matches!(
            (first, second),
            (Some(Direction::Up), Some(Direction::Down))
                | (Some(Direction::Down), Some(Direction::Up))
        )
    })
}

/// The direction in which a voice comes to a note that it strikes there.
fn approach(step: &Step<'_>, voice: VoiceId, at: Sounded) -> Option<Direction> {
    let notes = step.line(voice).notes();
    let pair = notes.windows(2).find(|pair| pair[1].onset == at.onset)?;
    Some(Interval::between(pair[0].pitch, pair[1].pitch).direction())
}

//! Suspensions that have come to their end at a moment, with their kinds. Knows how to find and to
//! name them, not which are admitted.

use crate::judge::Heard;
use crate::reading::{Ending, HearingStep, Outcome, Shape, SuspensionKind, sounds_above};
use crate::rulebook::Spelt;
use crate::rules::wording;
use crate::score::VoiceId;

/// A suspension that has come to its end.
pub(super) struct Resolved {
    /// The voice.
    pub voice: VoiceId,
    /// The held note.
    pub note: Heard,
    /// The note that resolves it.
    pub resolution: Heard,
    /// Its kind.
    pub kind: SuspensionKind,
    place: Place,
    outcome: Outcome,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Place {
    Above,
    Below,
}

/// The suspensions that come to their end at a moment.
pub(super) fn resolved(step: &HearingStep<'_>) -> impl Iterator<Item = Resolved> {
    step.outcomes.iter().filter_map(|outcome| Resolved::of(step, outcome))
}

impl Resolved {
    fn of(step: &HearingStep<'_>, outcome: &Outcome) -> Option<Self> {
        let Ending::Fulfilled(Shape::Suspension, resolution) = outcome.ending else { return None };
        let memory = step.notes.after;
        let dissonance = memory.pair.at(outcome.link.at)?;
        let is_above = sounds_above(outcome.voice, dissonance);
        Some(Self {
            voice: outcome.voice,
            note: outcome.link.note,
            resolution,
            kind: SuspensionKind::of(outcome, memory)?,
            place: if is_above { Place::Above } else { Place::Below },
            outcome: *outcome,
        })
    }

    /// "C5, held into bar 4".
    pub(super) fn held(&self, step: &HearingStep<'_>) -> String {
        let place = wording::place(step.notes.setting, self.outcome.link.at);
        format!("{}, held into {place}", self.note.pitch)
    }

    /// "C5, held into bar 4 and resolved to B4,".
    pub(super) fn tell(&self, step: &HearingStep<'_>) -> String {
        format!("{} and resolved to {},", self.held(step), self.resolution.pitch)
    }

    /// What belongs to the side on which the held voice sounds.
    pub(super) fn by_side<'a, T: ?Sized>(&self, above: &'a T, below: &'a T) -> &'a T {
        match self.place {
            Place::Above => above,
            Place::Below => below,
        }
    }

    /// "below the other voice".
    pub(super) fn side(&self) -> &'static str {
        self.by_side("above the other voice", "below the other voice")
    }
}

/// Whether a kind is among others.
pub(super) fn hold(kinds: &[Spelt<SuspensionKind>], kind: SuspensionKind) -> bool {
    kinds.iter().any(|known| known.0 == kind)
}

//! Which harmonies may be heard from a moment on: the one that is written, the one in force, or,
//! where one may enter, all that hold the note of the cantus. Knows no costs and no rules.

use bicinium_theory::Duration;

use super::hearing::Hearing;
use super::listener::Listener;
use super::plan::Implied;
use super::standing::{self, Standing};
use super::vocabulary::{Harmony, HarmonyId};
use crate::judge::Step;
use crate::score::WrittenHarmony;

/// The harmonies that may be heard from a moment on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Choices {
    /// The one in force goes on.
    GoesOn,
    /// The one that is written.
    Written(HarmonyId),
    /// Any of these; inside a bar only if no other has entered there.
    Entering(Vec<HarmonyId>),
}

impl Choices {
    /// The harmonies that may be heard at a moment after one way of hearing what came before.
    pub fn after(
        &self,
        before: &Hearing,
        step: &Step<'_>,
    ) -> impl Iterator<Item = Option<HarmonyId>> + '_ {
        let (only, any) = match self {
            Self::Written(harmony) => (Some(Some(*harmony)), [].as_slice()),
            Self::Entering(harmonies) if !before.has_changed_inside(step) => {
                (None, harmonies.as_slice())
            }
            Self::GoesOn | Self::Entering(_) => (Some(before.harmony), [].as_slice()),
        };
        only.into_iter().chain(any.iter().copied().map(Some))
    }
}

impl<'a> Listener<'a> {
    /// The harmonies that may be heard from a moment on.
    pub fn choices(&self, step: &Step<'_>) -> Choices {
        if self.rules.plan.implied == Implied::No {
            return Choices::GoesOn;
        }
        if let Some(written) = self.bound(step.now.onset) {
            return Choices::Written(written);
        }
        let usual = self.may_enter(step).then(|| self.usual(step));
        usual.filter(|usual| !usual.is_empty()).map_or(Choices::GoesOn, Choices::Entering)
    }

    /// The harmony written for an instant.
    fn bound(&self, onset: Duration) -> Option<HarmonyId> {
        let lasting = |h: &&WrittenHarmony| h.onset <= onset && onset < h.onset + h.duration;
        self.vocabulary.find(self.written.iter().find(lasting)?.numeral)
    }

    /// The harmony that the writer lets enter at an instant.
    pub(super) fn written_at(&self, onset: Duration) -> Option<&'a WrittenHarmony> {
        self.written.iter().find(|harmony| harmony.onset == onset)
    }

    fn may_enter(&self, step: &Step<'_>) -> bool {
        let meter = self.setting.meter;
        step.is_downbeat() || self.rules.plan.per_bar.may_enter(meter, step.within_bar())
    }

    /// The usual harmonies that the note of the cantus belongs to; all of them if it belongs to
    /// none, or if there is no cantus.
    fn usual(&self, step: &Step<'_>) -> Vec<HarmonyId> {
        let holds = |id: &HarmonyId| self.holds_cantus(step, &self.vocabulary[*id]);
        let fitting: Vec<_> = self.vocabulary.usual().filter(holds).collect();
        if fitting.is_empty() { self.vocabulary.usual().collect() } else { fitting }
    }

    fn holds_cantus(&self, step: &Step<'_>, harmony: &Harmony) -> bool {
        let Some(cantus) = self.setting.cantus else { return true };
        let Some(note) = step.line(cantus).sounding() else { return true };
        let standing = standing::in_harmony(harmony, step.after, cantus, note);
        matches!(standing, Standing::Stable(_))
    }
}

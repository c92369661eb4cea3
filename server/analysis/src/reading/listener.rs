//! One ear: which harmonies may be heard at a moment, and how the moment is heard in one of them, with
//! what the rules say of it. Needs only what could be seen before the moment, so it serves whoever
//! goes through an exercise, written or yet to be written. Knows no whole exercise.

use bicinium_theory::Duration;

use super::cost::{Cost, harmony_cost};
use super::ear;
use super::figure::Outcome;
use super::hearing::{Hearing, HearingStep};
use super::plan::{Implied, PerBar};
use super::standing::{self, Standing};
use super::vocabulary::{Harmony, HarmonyId, Vocabulary};
use crate::judge::{Breach, Detail, Report, Step};
use crate::rulebook::Rules;
use crate::score::{Setting, WrittenHarmony};

/// One ear, with all that it goes by.
#[derive(Clone, Copy, Debug)]
pub struct Listener<'a> {
    /// What the exercise is set in.
    pub setting: &'a Setting,
    /// The harmonies the writer put down.
    pub written: &'a [WrittenHarmony],
    /// The rules in force.
    pub rules: &'a Rules,
    /// The harmonies that may be heard.
    pub vocabulary: &'a Vocabulary,
}

/// A moment, heard in one way.
#[derive(Clone, Debug)]
pub struct Listened {
    /// How the music is heard after it.
    pub after: Hearing,
    /// What became of foreign notes.
    pub outcomes: Vec<Outcome>,
    /// What the rules say of it.
    pub breaches: Vec<Breach>,
    /// What it costs to hear it so.
    pub cost: Cost,
}

impl<'a> Listener<'a> {
    /// The harmonies that may be heard from a moment on; `None` if the one before goes on.
    pub fn choices(&self, step: &Step<'_>) -> Option<Vec<Option<HarmonyId>>> {
        if self.rules.plan.implied == Implied::No {
            return None;
        }
        if let Some(bound) = self.bound(step.now.onset) {
            return Some(vec![Some(bound)]);
        }
        let usual = self.may_change(step).then(|| self.usual(step));
        usual.filter(|usual| !usual.is_empty()).map(|ids| ids.into_iter().map(Some).collect())
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

    /// The harmony written for an instant.
    fn bound(&self, onset: Duration) -> Option<HarmonyId> {
        let lasting = |h: &&WrittenHarmony| h.onset <= onset && onset < h.onset + h.duration;
        self.vocabulary.find(self.written.iter().find(lasting)?.numeral)
    }

    /// The harmony that the writer lets enter at an instant.
    fn written_at(&self, onset: Duration) -> Option<&'a WrittenHarmony> {
        self.written.iter().find(|harmony| harmony.onset == onset)
    }

    fn may_change(&self, step: &Step<'_>) -> bool {
        let within = step.within_bar();
        let middle = self.setting.bar_length().divide(2);
        let is_middle = self.rules.plan.per_bar == PerBar::Two && Some(within) == middle;
        step.is_downbeat() || is_middle
    }

    /// Hears one moment in one harmony, after one way of hearing what came before.
    pub fn hear(
        &self,
        step: Step<'_>,
        before: &Hearing,
        harmony: Option<HarmonyId>,
        detail: Detail,
    ) -> Listened {
        let (after, outcomes) =
            ear::listen(before, &step, harmony, self.vocabulary, self.rules.figures);
        let hearing = HearingStep {
            notes: step,
            vocabulary: self.vocabulary,
            before,
            after: &after,
            outcomes: &outcomes,
            written: self.written_at(step.now.onset),
        };
        let mut report = Report::new(detail);
        self.rules.hear(&hearing, &mut report);
        let breaches = report.into_breaches();
        let cost = Cost::of_breaches(&breaches)
            + Cost::of_harmony(harmony_cost(&self.rules.plan, &hearing));
        Listened { after, outcomes, breaches, cost }
    }
}

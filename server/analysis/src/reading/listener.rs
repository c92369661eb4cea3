//! One ear: how a moment is heard in a harmony, with what the rules say of it. Needs only what could be seen before the moment, so it serves whoever
//! goes through an exercise, written or yet to be written. Knows no whole exercise.

use super::cost::{Cost, harmony_cost};
use super::ear;
use super::figure::{Admitted, Outcome};
use super::hearing::{Hearing, HearingStep};
use super::vocabulary::{HarmonyId, Vocabulary};
use crate::judge::{Admission, Breach, Detail, Report, Sight, Step};
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
    /// What they let pass for a reason; told only where words are made.
    pub admissions: Vec<Admission>,
    /// What it costs to hear it so.
    pub cost: Cost,
}

impl Listener<'_> {
    /// How far back the ear goes, whatever the rules ask for.
    pub fn sight(&self) -> Sight {
        match self.rules.figures.double_neighbour {
            Admitted::Yes => Sight::notes(2),
            Admitted::No => Sight::LAST,
        }
    }

    /// Hears one moment in one harmony, after one way of hearing what came before.
    pub fn hear(
        &self,
        step: Step<'_>,
        before: &Hearing,
        harmony: Option<HarmonyId>,
        detail: Detail,
    ) -> Listened {
        let (after, outcomes) = self.listen(&step, before, harmony);
        let mut report = Report::new(detail);
        let hearing = self.heard(step, before, &after, &outcomes);
        self.rules.hear(&hearing, &mut report);
        let (breaches, admissions) = report.into_parts();
        let cost = Cost::of_breaches(&breaches)
            + Cost::of_harmony(harmony_cost(&self.rules.plan, &hearing));
        Listened { after, outcomes, breaches, admissions, cost }
    }

    /// How the music is heard after a moment, and what became of foreign notes, before any rule is
    /// asked.
    pub fn listen(
        &self,
        step: &Step<'_>,
        before: &Hearing,
        harmony: Option<HarmonyId>,
    ) -> (Hearing, Vec<Outcome>) {
        ear::listen(before, step, harmony, self.vocabulary, self.rules.figures)
    }

    /// The moment as it is heard, for rules to judge.
    pub fn heard<'h>(
        &'h self,
        notes: Step<'h>,
        before: &'h Hearing,
        after: &'h Hearing,
        outcomes: &'h [Outcome],
    ) -> HearingStep<'h> {
        let written = self.written_at(notes.now.onset);
        HearingStep { notes, vocabulary: self.vocabulary, before, after, outcomes, written }
    }
}

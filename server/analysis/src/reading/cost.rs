//! What a way of hearing costs: first its faults, then its cautions, then how far-fetched its
//! harmonies are. Knows the plan of the school, not its rules.

use bicinium_theory::{Duration, Member};

use super::figure::{Entry, Figure};
use super::hearing::HearingStep;
use super::plan::Plan;
use crate::finding::Level;
use crate::judge::{Breach, LineState};
use crate::score::VoiceId;

/// What a way of hearing costs. Compared and added as one number: no sum of far-fetched harmonies
/// outweighs a fault.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Cost(u64);

const FAULT: u64 = 1 << 44;
const CAUTION: u64 = 1 << 30;
/// Up to here sums of costs are exact, whatever is added at a moment.
const EXACT: i64 = 1 << 61;

impl Cost {
    /// The cost of breaches; advice costs nothing, so that taste never bends a reading.
    pub fn of_breaches(breaches: &[Breach]) -> Self {
        Self(breaches.iter().map(|breach| weight(breach.level)).sum())
    }

    /// The cost of harmonies.
    pub fn of_harmony(cost: u32) -> Self {
        Self(u64::from(cost))
    }

    /// By how much it exceeds, or falls short of, another cost; nothing for costs near the limit of
    /// what can be counted, where sums are no longer exact.
    pub(super) fn beyond(self, other: Self) -> Option<i64> {
        let exact = |cost: Self| i64::try_from(cost.0).ok().filter(|cost| *cost < EXACT);
        Some(exact(self)? - exact(other)?)
    }

    /// The cost with such a difference.
    pub(super) fn moved_by(self, difference: i64) -> Self {
        Self(self.0.saturating_add_signed(difference))
    }

    /// How much more this is than another cost.
    pub fn above(self, other: Self) -> u64 {
        self.0.saturating_sub(other.0)
    }
}

impl std::ops::Add for Cost {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

fn weight(level: Level) -> u64 {
    match level {
        Level::Notation | Level::Fault => FAULT,
        Level::Caution => CAUTION,
        Level::Advice | Level::Unfinished => 0,
    }
}

/// How far-fetched it is to hear a moment in this way.
pub fn harmony_cost(plan: &Plan, step: &HearingStep<'_>) -> u32 {
    progression(plan, step) + voicing(plan, step) + figures(plan, step)
}

fn progression(plan: &Plan, step: &HearingStep<'_>) -> u32 {
    let Some(harmony) = step.harmony().filter(|_| is_written(step)) else { return 0 };
    let is_new = step.before.harmony != step.after.harmony;
    if !is_new && !step.notes.is_downbeat() {
        return 0;
    }
    let costs = &plan.costs;
    let mut cost = harmony.cost + frame(plan, step);
    if let (true, Some(before)) = (is_new, step.harmony_before()) {
        let weak = before.numeral.degree == 5 && matches!(harmony.numeral.degree, 2 | 4);
        cost += costs.change + if weak { costs.weak_motion } else { 0 };
        cost += if step.notes.is_downbeat() { 0 } else { costs.change_inside };
    }
    cost
}

/// Whether anything sounds; where nothing is written, no harmony is more likely than another.
fn is_written(step: &HearingStep<'_>) -> bool {
    VoiceId::BOTH.into_iter().any(|voice| step.notes.line(voice).sounding().is_some())
}

/// The first and the last harmony are the tonic.
fn frame(plan: &Plan, step: &HearingStep<'_>) -> u32 {
    let is_frame = step.notes.now.onset == Duration::ZERO || step.notes.is_last_bar();
    let is_tonic = step.harmony().is_some_and(super::vocabulary::Harmony::is_tonic);
    if is_frame && !is_tonic { plan.costs.frame } else { 0 }
}

fn voicing(plan: &Plan, step: &HearingStep<'_>) -> u32 {
    let Some(sounded) = step.notes.sounded() else { return 0 };
    let member = |voice: VoiceId| match step.after.figures[voice] {
        Figure::Stable(member) => member,
        _ => None,
    };
    let bass = member(sounded.bass());
    let top = member(sounded.bass().other());
    let costs = &plan.costs;
    match (bass, top) {
        (Some(Member::Third), Some(Member::Third)) => costs.third_in_bass + costs.doubled_third,
        (Some(Member::Third), Some(Member::Fifth)) => costs.third_in_bass + costs.rootless,
        (Some(Member::Third), _) => costs.third_in_bass,
        (Some(Member::Fifth), _) => costs.fifth_in_bass,
        _ => 0,
    }
}

fn figures(plan: &Plan, step: &HearingStep<'_>) -> u32 {
    VoiceId::BOTH.into_iter().map(|voice| figure(plan, step, voice)).sum()
}

fn figure(plan: &Plan, step: &HearingStep<'_>, voice: VoiceId) -> u32 {
    let costs = &plan.costs;
    let is_struck = step.notes.line(voice).state == LineState::Striking;
    let was_foreign = matches!(step.before.figures[voice], Figure::Foreign(..));
    match step.after.figures[voice] {
        Figure::Foreign(_, Entry::Weak | Entry::Between) if is_struck => costs.weak_figure,
        Figure::Foreign(_, Entry::Accented) if is_struck => costs.accented_figure,
        Figure::Foreign(_, Entry::Held) if !was_foreign => costs.suspension,
        _ => 0,
    }
}

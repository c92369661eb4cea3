//! What an exercise is worth: what a rubric takes off for each thing, and what it gives. Must not know
//! how anything was found.

use std::collections::BTreeMap;

use serde::Serialize;

use super::as_set::{Aspect, Departure};
use super::found::{Found, Level};
use crate::merits::MeritKind;
use crate::points::Points;
use crate::rubric::{Rate, Rubric};

/// All that counts.
pub(super) struct Work<'a> {
    /// What the exercise is worth.
    pub worth: Points,
    /// Whether anything is written.
    pub begun: bool,
    /// In how many bars something is still to be written.
    pub open_bars: usize,
    /// What is not as set.
    pub not_as_set: &'a [Departure],
    /// What was found.
    pub findings: &'a [Found],
    /// What was done well, if it earns anything.
    pub merits: &'a [MeritKind],
}

/// Why something is taken off.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cause {
    /// Nothing is written.
    NothingWritten,
    /// Bars are not written.
    Unfinished,
    /// Something is not as set.
    NotAsSet(Aspect),
    /// A rule is broken that the rubric names.
    Rule(&'static str),
    /// Findings of a level.
    Level(Level),
    /// Licences were taken.
    Licences,
}

/// What is taken off for one cause.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Deduction {
    /// Why.
    pub cause: Cause,
    /// For how many.
    pub number: usize,
    /// How much in all, after the bound of the rubric.
    pub off: Points,
}

/// What an exercise is worth in the end.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Reckoning {
    /// What it was worth at the beginning.
    pub worth: Points,
    /// What is taken off, cause by cause. More cannot be lost than an exercise is worth.
    pub deductions: Vec<Deduction>,
    /// What is given.
    pub bonus: BTreeMap<MeritKind, Points>,
    /// What is left.
    pub points: Points,
}

pub(super) fn reckon(work: &Work<'_>, rubric: &Rubric) -> Reckoning {
    let deductions = if work.begun { deductions(work, rubric) } else { vec![nothing(work.worth)] };
    let off: Points = deductions.iter().map(|deduction| deduction.off).sum();
    let given = |kind: &MeritKind| Some((*kind, *rubric.bonus.get(kind)?));
    let bonus: BTreeMap<_, _> = work.merits.iter().filter_map(given).collect();
    let left = (work.worth - off).max(Points::NONE);
    let points = left + bonus.values().copied().sum();
    Reckoning { worth: work.worth, deductions, bonus, points }
}

fn nothing(worth: Points) -> Deduction {
    Deduction { cause: Cause::NothingWritten, number: 1, off: worth }
}

fn deductions(work: &Work<'_>, rubric: &Rubric) -> Vec<Deduction> {
    let mut counted: BTreeMap<Cause, (usize, Rate)> = BTreeMap::new();
    let mut count = |cause, number, rate| counted.entry(cause).or_insert((0, rate)).0 += number;
    count(Cause::Unfinished, work.open_bars, rubric.unfinished);
    for departure in work.not_as_set {
        let rate = rubric.as_set.get(&departure.aspect).copied().unwrap_or_default();
        count(Cause::NotAsSet(departure.aspect), 1, rate);
    }
    for found in work.findings {
        let rate = rubric.rate(found.rule, found.level.0);
        match &found.accepted {
            Some(_) => count(Cause::Licences, 1, rubric.licences),
            None if rubric.rules.contains_key(found.rule) => {
                count(Cause::Rule(found.rule), 1, rate);
            }
            None => count(Cause::Level(found.level), 1, rate),
        }
    }
    let deductions = counted.into_iter().map(|(cause, (number, rate))| {
        let off = rate.for_all(number);
        Deduction { cause, number, off }
    });
    deductions.filter(|deduction| deduction.off > Points::NONE).collect()
}

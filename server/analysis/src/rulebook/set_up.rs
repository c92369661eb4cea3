//! Setting up a rulebook from its draft and what it extends. Either the rulebook is whole, or every
//! problem of the draft is told. Knows no files.

use std::ops::Range;
use std::sync::Arc;

use serde::de::DeserializeOwned;
use toml::{Table, Value};

use super::draft::Draft;
use super::rules::{Active, Declined, Rules};
use super::{Rulebook, RulebookProblem, SPECIES, built_in, lay};
use crate::finding::Level;
use crate::rules::{self, Entry, Rule};
use crate::score::Writing;
use crate::words::quoted;

/// What a draft is laid over: nothing, a rulebook, or the problem that keeps it from being found.
pub(super) type Base = Result<Option<Arc<Rulebook>>, RulebookProblem>;

impl Rulebook {
    /// Sets up the rulebook of a draft; `name` is the name by which sheets find it.
    pub(super) fn set_up(
        draft: &Draft,
        name: &str,
        base: Base,
    ) -> Result<Self, Vec<RulebookProblem>> {
        let mut problems = draft.problems.clone();
        problems.extend(shadowing(draft, name));
        match base {
            Ok(base) if problems.is_empty() => Self::laid_over(draft, name, base),
            Ok(_) => Err(problems),
            Err(problem) => {
                problems.push(problem);
                problems.sort_by_key(|problem| problem.range.start);
                Err(problems)
            }
        }
    }

    /// Sets up a rulebook that is built in.
    pub(super) fn built_in(
        draft: &Draft,
        base: Option<Arc<Self>>,
    ) -> Result<Self, Vec<RulebookProblem>> {
        match draft.problems.as_slice() {
            [] => Self::laid_over(draft, "", base),
            problems => Err(problems.to_vec()),
        }
    }

    fn laid_over(
        draft: &Draft,
        name: &str,
        base: Option<Arc<Self>>,
    ) -> Result<Self, Vec<RulebookProblem>> {
        let decisions = match &base {
            Some(base) => lay::over(&base.decisions, &draft.decisions),
            None => draft.decisions.clone(),
        };
        let name = draft.name.as_ref().map_or(name, |name| name.text.as_str()).to_owned();
        let title = draft.title.as_ref().map_or_else(|| name.clone(), |title| title.text.clone());
        let mut open = Vec::new();
        let kinds = SPECIES.into_iter().zip(Writing::ALL);
        let rules =
            kinds.map(|(key, writing)| rules_of(lay::for_species(&decisions, key), writing));
        let rules = rules.filter_map(|rules| rules.map_err(|it| open.extend(it)).ok());
        let rules: Vec<_> = rules.map(Arc::new).collect();
        let by_species = rules.try_into().map_err(|_| vec![undecided(draft, open)])?;
        Ok(Self { name, title, base, decisions, by_species })
    }
}

/// What is wrong with a name that means a built-in rulebook.
fn shadowing(draft: &Draft, name: &str) -> Option<RulebookProblem> {
    let own = draft.name.as_ref().map(|name| (name.text.as_str(), name.range.clone()));
    let names = own.into_iter().chain([(name, 0..0)]);
    let (name, range): (_, Range<usize>) =
        names.into_iter().find(|(name, _)| built_in::is(name))?;
    let message = format!(
        "`{name}` is built in and stays what it is. Give this rulebook another name; it can say \
         `extends = \"{name}\"`."
    );
    Some(RulebookProblem::at(range, message))
}

/// What is said of a rulebook that leaves something open.
fn undecided(draft: &Draft, mut open: Vec<&'static str>) -> RulebookProblem {
    open.sort_unstable();
    open.dedup();
    let range = draft.extends.as_ref().map_or(0..0, |extends| extends.range.clone());
    let open = quoted(&open, "and");
    RulebookProblem::at(
        range,
        format!(
            "This rulebook leaves open what holds for {open}. Let it extend another one, as in \
             `extends = \"tonal\"`, or answer all that they ask."
        ),
    )
}

/// The rules that a table decides for a kind of writing; otherwise what it leaves open.
fn rules_of(decisions: Table, writing: Writing) -> Result<Rules, Vec<&'static str>> {
    let mut open = Vec::new();
    let mut active = Vec::new();
    for entry in rules::all() {
        match active_rule(entry, &decisions) {
            Ok(rule) => active.extend(rule.filter(|_| entry.group.has_place_in(writing))),
            Err(name) => open.push(name),
        }
    }
    let figures = section(&decisions, "figures");
    let plan = section(&decisions, "harmony");
    open.extend(figures.is_none().then_some("figures"));
    open.extend(plan.is_none().then_some("harmony"));
    let ranking = section(&decisions, "ranking").unwrap_or_default();
    match (figures, plan) {
        (Some(figures), Some(plan)) if open.is_empty() => {
            Ok(Rules { figures, plan, ranking, active, written: decisions })
        }
        _ => Err(open),
    }
}

/// A rule with its level and its switches, nothing if it is switched off; its name if something
/// about it is left open.
fn active_rule(entry: &'static Entry, decisions: &Table) -> Result<Option<Active>, &'static str> {
    let (level, rule) = answers(entry, decisions).ok_or(entry.name)?;
    Ok(level.map(|level| Active { entry, level, rule, declined: Declined::default() }))
}

fn answers(entry: &Entry, decisions: &Table) -> Option<(Option<Level>, Box<dyn Rule>)> {
    let mut switches = decisions.get("rules")?.get(entry.name)?.as_table()?.clone();
    let level = match switches.remove("level")?.as_str()? {
        "fault" => Some(Level::Fault),
        "caution" => Some(Level::Caution),
        "advice" => Some(Level::Advice),
        "off" => None,
        _ => return None,
    };
    Some((level, (entry.build)(switches).ok()?))
}

fn section<T: DeserializeOwned>(decisions: &Table, name: &str) -> Option<T> {
    T::deserialize(Value::Table(decisions.get(name)?.as_table()?.clone())).ok()
}

//! Reading a rulebook from its text: what it extends is laid under it, what it says for a species
//! over it, and every rule is set up from what results. Nothing here fails half-way: either the
//! rulebook is whole, or every problem found is told.

use std::collections::BTreeSet;
use std::sync::Arc;

use toml::{Table, Value};

use super::Rulebook;
use super::rules::{Active, Rules};
use crate::finding::Level;
use crate::rules::{self, Entry};

/// Finds the table of a rulebook by the name in `extends`.
pub type Source<'a> = dyn Fn(&str) -> Option<Table> + 'a;

/// Something wrong with a rulebook.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RulebookProblem {
    /// What is wrong, and what would mend it.
    pub message: String,
}

/// The keys of the species tables, free writing first.
const SPECIES: [&str; 6] = ["free", "1", "2", "3", "4", "5"];

impl Rulebook {
    /// Reads a rulebook; `source` finds the one it extends.
    pub fn read(text: &str, source: &Source<'_>) -> Result<Self, Vec<RulebookProblem>> {
        let own: Table = toml::from_str(text).map_err(|error| vec![problem(error.message())])?;
        Self::from_table(whole(own, source)?)
    }

    fn from_table(mut table: Table) -> Result<Self, Vec<RulebookProblem>> {
        let name = take_text(&mut table, "name")?;
        let title = take_text(&mut table, "title")?;
        let mut species = take_table(&mut table, "species");
        let mut problems = Vec::new();
        let mut by_species = Vec::new();
        for key in SPECIES {
            let mut own = table.clone();
            lay_over(&mut own, take_table(&mut species, key));
            match set_up(own) {
                Ok(rules) => by_species.push(Arc::new(rules)),
                Err(found) => problems.extend(found),
            }
        }
        problems.extend(species.keys().map(|key| {
            problem(format!("there is no species `{key}`; the species are 1 to 5 and `free`"))
        }));
        let mut told = BTreeSet::new();
        problems.retain(|problem| told.insert(problem.message.clone()));
        match <[_; 6]>::try_from(by_species) {
            Ok(by_species) if problems.is_empty() => Ok(Self { name, title, by_species }),
            _ => Err(problems),
        }
    }
}

/// The table of a rulebook with everything that it extends laid under it.
pub(super) fn whole(mut own: Table, source: &Source<'_>) -> Result<Table, Vec<RulebookProblem>> {
    let Some(base) = own.remove("extends") else { return Ok(own) };
    let base = base.as_str().unwrap_or_default();
    let unknown = || vec![problem(format!("it extends `{base}`, and no rulebook has that name"))];
    let mut table = source(base).ok_or_else(unknown)?;
    lay_over(&mut table, own);
    Ok(table)
}

/// Lays one table over another: what it says holds, what it leaves out stays.
fn lay_over(under: &mut Table, over: Table) {
    for (key, value) in over {
        match (under.get_mut(&key), value) {
            (Some(Value::Table(under)), Value::Table(over)) => lay_over(under, over),
            (_, value) => {
                under.insert(key, value);
            }
        }
    }
}

fn set_up(mut table: Table) -> Result<Rules, Vec<RulebookProblem>> {
    let written = table.clone();
    let mut levels = take_table(&mut table, "rules");
    let mut problems = Vec::new();
    let mut active = Vec::new();
    for entry in rules::all() {
        match set_up_rule(entry, levels.remove(entry.name)) {
            Ok(rule) => active.extend(rule),
            Err(found) => problems.push(found),
        }
    }
    problems.extend(levels.keys().map(|name| problem(format!("there is no rule `{name}`"))));
    let figures = section(&mut table, "figures");
    let plan = section(&mut table, "harmony");
    problems.extend(table.keys().map(|key| problem(format!("`{key}` is not known here"))));
    match (figures, plan) {
        (Ok(figures), Ok(plan)) if problems.is_empty() => {
            Ok(Rules { figures, plan, active, written })
        }
        (figures, plan) => {
            problems.extend(figures.err());
            problems.extend(plan.err());
            Err(problems)
        }
    }
}

fn set_up_rule(
    entry: &'static Entry,
    value: Option<Value>,
) -> Result<Option<Active>, RulebookProblem> {
    let about = |what: &str| problem(format!("rule `{}`: {what}", entry.name));
    let Some(Value::Table(mut switches)) = value else {
        return Err(about(
            "a level is missing; write `level = \"fault\"`, `\"caution\"`, `\"advice\"` or `\"off\"`",
        ));
    };
    let level = switches.remove("level").unwrap_or(Value::Boolean(false));
    let rule = (entry.build)(switches).map_err(|error| about(error.message()))?;
    let level = match level.as_str() {
        Some("off") => return Ok(None),
        Some("fault") => Level::Fault,
        Some("caution") => Level::Caution,
        Some("advice") => Level::Advice,
        _ => return Err(about("the level is one of `fault`, `caution`, `advice` and `off`")),
    };
    Ok(Some(Active { entry, level, rule }))
}

fn section<T: serde::de::DeserializeOwned>(
    table: &mut Table,
    key: &str,
) -> Result<T, RulebookProblem> {
    let value = Value::Table(take_table(table, key));
    T::deserialize(value).map_err(|error| problem(format!("`{key}`: {}", error.message())))
}

fn take_table(table: &mut Table, key: &str) -> Table {
    match table.remove(key) {
        Some(Value::Table(inner)) => inner,
        _ => Table::new(),
    }
}

fn take_text(table: &mut Table, key: &str) -> Result<String, Vec<RulebookProblem>> {
    match table.remove(key) {
        Some(Value::String(text)) => Ok(text),
        _ => Err(vec![problem(format!("a line `{key} = \"…\"` is missing"))]),
    }
}

fn problem(message: impl Into<String>) -> RulebookProblem {
    RulebookProblem { message: message.into() }
}

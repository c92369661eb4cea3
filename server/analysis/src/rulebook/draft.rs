//! A rulebook as its own text has it, before it is laid over what it extends: read, and held
//! against what a rulebook can decide. Knows no other rulebook.

use std::collections::BTreeMap;
use std::ops::Range;

use toml::de::{DeTable, Error};
use toml::{Spanned, Table};

use super::{RulebookProblem, check};

/// A rulebook as its own text has it.
#[derive(Clone, Debug)]
pub struct Draft {
    /// Its name, if it gives itself one.
    pub(super) name: Option<Said>,
    /// Its title, if it has one.
    pub(super) title: Option<Said>,
    /// The name or the path of the rulebook that it extends.
    pub(super) extends: Option<Said>,
    /// What it decides.
    pub(super) decisions: Table,
    /// What is wrong with it, whatever it extends.
    pub(super) problems: Vec<RulebookProblem>,
}

/// A word of a rulebook with its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Said {
    pub(super) text: String,
    pub(super) range: Range<usize>,
}

impl Draft {
    /// Reads the text of a rulebook.
    pub fn read(text: &str) -> Self {
        let (said, errors) = DeTable::parse_recoverable(text);
        if !errors.is_empty() {
            return Self::unreadable(unreadable_lines(text, &errors));
        }
        match toml::from_str(text) {
            Ok(decisions) => Self::of(decisions, said.get_ref()),
            Err(error) => Self::unreadable(unreadable_lines(text, &[error])),
        }
    }

    /// The name or the path of the rulebook that it extends.
    pub fn extends(&self) -> Option<&str> {
        self.extends.as_ref().map(|extends| extends.text.as_str())
    }

    fn of(mut decisions: Table, said: &DeTable<'_>) -> Self {
        let head = |key| said.get(key).and_then(word);
        let draft = Self {
            name: head("name"),
            title: head("title"),
            extends: head("extends"),
            decisions: Table::new(),
            problems: check::problems(said),
        };
        decisions.retain(|key, _| !check::HEAD.contains(&key));
        Self { decisions, ..draft }
    }

    /// The draft of a text that cannot be had, for a reason that is the end of a sentence.
    pub(super) fn out_of_reach(reason: &str) -> Self {
        let message = format!("This rulebook cannot be read: {reason}.");
        Self::unreadable(vec![RulebookProblem::of_all(message)])
    }

    /// A draft of which nothing is known but what is wrong with it.
    fn unreadable(problems: Vec<RulebookProblem>) -> Self {
        Self { name: None, title: None, extends: None, decisions: Table::new(), problems }
    }
}

fn word(said: &Spanned<toml::de::DeValue<'_>>) -> Option<Said> {
    Some(Said { text: said.get_ref().as_str()?.to_owned(), range: said.span() })
}

/// What cannot be read, the first thing in each line; what follows it there is often only its echo.
fn unreadable_lines(text: &str, errors: &[Error]) -> Vec<RulebookProblem> {
    let mut by_line = BTreeMap::new();
    for error in errors {
        let range = error.span().unwrap_or_default();
        let line = text.bytes().take(range.start).filter(|byte| *byte == b'\n').count();
        by_line.entry(line).or_insert_with(|| unreadable(range, error.message()));
    }
    by_line.into_values().collect()
}

fn unreadable(range: Range<usize>, reason: &str) -> RulebookProblem {
    let advice = match reason {
        "duplicate key" => "This is said twice. Keep one of the two.",
        _ if reason.starts_with("invalid boolean") => {
            "This cannot be read. A word stands in quotation marks, as in `level = \"fault\"`."
        }
        _ if reason.starts_with("key with no value") => {
            "Something is missing here: an answer has the form `level = \"fault\"`."
        }
        _ if reason.starts_with("unclosed table") => {
            "The bracket of this heading is not closed, as in `[rules.span]`."
        }
        _ if reason.contains("string") => "The quotation marks are not closed here.",
        _ if reason.contains("recurs") => {
            "This goes too deep. Nothing in a rulebook lies deeper than `[species.1.rules.span]`."
        }
        _ => {
            "This cannot be read. A rulebook has headings such as `[rules.span]`, and below them \
             answers such as `level = \"fault\"`."
        }
    };
    RulebookProblem::at(range, advice)
}

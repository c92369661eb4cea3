//! A rulebook as its own text has it, before it is laid over what it extends: read, and held
//! against what a rulebook can decide. Knows no other rulebook.

use std::ops::Range;

use toml::de::DeTable;
use toml::{Spanned, Table};

use super::{RulebookProblem, check, unreadable};

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
            return Self::unreadable(unreadable::told(text, &errors));
        }
        match toml::from_str(text) {
            Ok(decisions) => Self::of(decisions, said.get_ref()),
            Err(error) => Self::unreadable(unreadable::told(text, &[error])),
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

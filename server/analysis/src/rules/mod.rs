//! The rules, one file each, and the registry that lists them. A rule is a function of a step of
//! the judge; it knows the setting, what can still be seen and what happens now, and nothing of
//! text, editors or other rules. Its file opens with its page: what it finds, why it matters, an
//! example that breaks it, the same mended, sources, where schools differ, and its switches.

pub mod cantus;
mod comment;
pub mod dissonance;
pub mod form;
pub mod line;
pub mod page;
pub mod pair;
pub mod switch;
pub mod wording;

use std::fmt::Debug;

use serde::de::DeserializeOwned;

use crate::judge::{Close, Matter, Report, Sight, Step};
use crate::reading::HearingStep;
use crate::rulebook::Refuse;
use crate::score::Writing;
use crate::words;

/// A rule with its switches set.
pub trait Rule: Debug + Send + Sync {
    /// Judges a moment by the notes alone.
    fn step(&self, _step: &Step<'_>, report: &mut Report) {
        report.decline();
    }

    /// Judges a moment by how it is heard: with its harmony and the functions of the notes.
    fn hear(&self, _step: &HearingStep<'_>, report: &mut Report) {
        report.decline();
    }

    /// Judges the whole when its end is reached.
    fn close(&self, _close: &Close<'_>, report: &mut Report) {
        report.decline();
    }

    /// How far back it looks while it judges; at the end, from the last moment.
    fn sight(&self) -> Sight {
        Sight::LAST
    }

    /// What it asks for in the notes that it sees.
    fn matter(&self) -> Matter {
        Matter::Pitches
    }
}

/// What a rule is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Group {
    /// The exercise as a whole: rhythm, opening, close.
    Form,
    /// One line by itself.
    Line,
    /// A cantus by itself.
    Cantus,
    /// Two voices moving.
    Pair,
    /// Dissonance, and notes foreign to the harmony.
    Dissonance,
}

impl Group {
    /// A heading for tables.
    pub fn name(self) -> &'static str {
        match self {
            Self::Form => "form",
            Self::Line => "line",
            Self::Cantus => "cantus",
            Self::Pair => "two voices",
            Self::Dissonance => "dissonance",
        }
    }

    /// Whether its rules have anything to judge in a kind of writing: a cantus by itself has no other
    /// voice, and what is asked of it is asked of no other line.
    pub fn has_place_in(self, writing: Writing) -> bool {
        match self {
            Self::Form | Self::Line => true,
            Self::Cantus => writing == Writing::Cantus,
            Self::Pair | Self::Dissonance => writing != Writing::Cantus,
        }
    }
}

/// A rule as the registry lists it.
#[derive(Debug)]
pub struct Entry {
    /// Its name in rulebooks, licences and findings.
    pub name: &'static str,
    /// What it is about.
    pub group: Group,
    /// The text of its file, which opens with its page.
    pub source: &'static str,
    /// Sets its switches from a table of a rulebook.
    pub build: fn(toml::Table) -> Result<Box<dyn Rule>, toml::de::Error>,
    /// Says why a table of switches is refused, if it is, and where.
    pub(crate) refuse: Refuse,
}

/// Reads the switches of a rule.
pub(crate) fn build<R: Rule + DeserializeOwned + 'static>(
    switches: toml::Table,
) -> Result<Box<dyn Rule>, toml::de::Error> {
    Ok(Box::new(R::deserialize(toml::Value::Table(switches))?))
}

/// Lists a rule: its group, its name, its module and its type.
macro_rules! entry {
    ($group:ident, $name:literal, $module:ident::$rule:ident) => {
        crate::rules::Entry {
            name: $name,
            group: crate::rules::Group::$group,
            source: include_str!(concat!(stringify!($module), ".rs")),
            build: crate::rules::build::<$module::$rule>,
            refuse: crate::rulebook::refuse::<$module::$rule>,
        }
    };
}
pub(crate) use entry;

/// Every rule, by group.
pub fn all() -> impl Iterator<Item = &'static Entry> {
    [form::RULES, line::RULES, cantus::RULES, pair::RULES, dissonance::RULES].into_iter().flatten()
}

/// The rule of a name.
pub fn named(name: &str) -> Option<&'static Entry> {
    all().find(|entry| entry.name == name)
}

/// The rule whose name is most like a misspelt one, if any is much like it.
pub fn nearest(misspelt: &str) -> Option<&'static Entry> {
    words::nearest(misspelt, all().map(|entry| entry.name)).and_then(named)
}

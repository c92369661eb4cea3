//! Rulebooks: what a school decides. A rulebook is a TOML file that gives every rule a level and
//! its switches, says which figures are admitted and how harmony is read, and may differ from
//! species to species. Knows no music, only where each answer belongs.

mod built_in;
mod check;
mod collection;
mod draft;
mod lay;
mod lineage;
mod problem;
mod question;
mod ranking;
mod refusal;
mod rules;
mod section;
mod set_up;
mod shelf;
mod spelt;
mod trial;
mod unreadable;

pub use collection::{Collection, Held};
pub use draft::Draft;
pub use lineage::{Source, is_path, missing};
pub use problem::RulebookProblem;
pub use question::{About, Question, switches};
pub use ranking::Ranking;
pub use rules::{Active, Rules};
pub use shelf::Shelf;
pub use spelt::Spelt;
pub(crate) use trial::{Refuse, refuse};

use std::sync::Arc;

use toml::Table;

use crate::score::Writing;

/// The end of the names of files that hold a rulebook.
pub const FILE_END: &str = ".rulebook.toml";
/// The levels that a rulebook can give a rule, the gravest first.
pub const LEVELS: [&str; 4] = ["fault", "caution", "advice", "off"];
/// The keys of the species tables, one for each kind of writing.
const SPECIES: [&str; Writing::ALL.len()] = ["free", "1", "2", "3", "4", "5", "cantus"];

/// What a school decides.
#[derive(Debug)]
pub struct Rulebook {
    /// The name that sheets call it by.
    pub name: String,
    /// What it is, in one line.
    pub title: String,
    /// The rulebook that it extends.
    pub base: Option<Arc<Rulebook>>,
    /// Everything that it decides, with all that it takes over.
    decisions: Table,
    /// The rules for each kind of writing.
    by_species: [Arc<Rules>; Writing::ALL.len()],
}

impl Rulebook {
    /// The rules for a kind of writing; those for free writing if there is no species of that number.
    pub fn rules(&self, writing: impl Into<Writing>) -> &Arc<Rules> {
        let writing = writing.into();
        let index = Writing::ALL.iter().position(|known| *known == writing);
        &self.by_species[index.unwrap_or(0)]
    }

    /// Whether another one decides everything alike and has the same name.
    fn is_like(&self, other: &Self) -> bool {
        let said = |book: &Self| (book.name.clone(), book.title.clone());
        said(self) == said(other) && self.decisions == other.decisions
    }
}

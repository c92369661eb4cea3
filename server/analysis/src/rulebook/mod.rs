//! Rulebooks: what a school decides. A rulebook is a TOML file that gives every rule a level and
//! its switches, says which figures are admitted and how harmony is read, and may differ from
//! species to species. Knows no music, only where each answer belongs.

mod load;
mod question;
mod rules;
mod shelf;
mod spelt;

pub use load::{RulebookProblem, Source};
pub use question::{About, Question, switches};
pub use rules::{Active, Rules};
pub use shelf::Shelf;
pub use spelt::Spelt;

use std::sync::Arc;

/// What a school decides.
#[derive(Debug)]
pub struct Rulebook {
    /// The name that sheets call it by.
    pub name: String,
    /// What it is, in one line.
    pub title: String,
    /// The rules for free writing, then for species 1 to 5.
    by_species: [Arc<Rules>; 6],
}

impl Rulebook {
    /// The rules for a species; for free writing if there is none, or none of that number.
    pub fn rules(&self, species: Option<u8>) -> &Arc<Rules> {
        let index = usize::from(species.unwrap_or(0));
        self.by_species.get(index).unwrap_or(&self.by_species[0])
    }
}

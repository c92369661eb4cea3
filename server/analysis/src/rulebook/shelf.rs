//! The shelf of rulebooks that a sheet may name: the two built in, and those that are put on it.
//! Knows no files; whoever finds one puts it here.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::{Draft, Rulebook, RulebookProblem, built_in};

/// The rulebooks that a sheet may name.
#[derive(Clone, Debug)]
pub struct Shelf {
    rulebooks: BTreeMap<String, Arc<Rulebook>>,
    /// Why those that cannot be had cannot, as the end of a sentence.
    missing: BTreeMap<String, String>,
    default: Arc<Rulebook>,
    bound: Option<Arc<Rulebook>>,
}

impl Default for Shelf {
    fn default() -> Self {
        Self {
            rulebooks: built_in::all().clone(),
            missing: BTreeMap::new(),
            default: built_in::default().clone(),
            bound: None,
        }
    }
}

impl Shelf {
    /// The rulebook that holds for a sheet which names this one.
    pub fn get(&self, name: &str) -> Option<&Arc<Rulebook>> {
        self.bound.as_ref().or_else(|| self.rulebooks.get(name))
    }

    /// Why a rulebook is not on the shelf, as the end of a sentence, if that is known.
    pub fn why_missing(&self, name: &str) -> Option<&str> {
        self.missing.get(name).map(String::as_str)
    }

    /// The rulebook that holds where a sheet names none.
    pub fn default_rulebook(&self) -> &Arc<Rulebook> {
        self.bound.as_ref().unwrap_or(&self.default)
    }

    /// The names of all rulebooks.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.rulebooks.keys().map(String::as_str)
    }

    /// All rulebooks, by name.
    pub fn all(&self) -> impl Iterator<Item = &Arc<Rulebook>> {
        self.rulebooks.values()
    }

    /// Puts what a name or a path means on the shelf: a rulebook, or the reason why there is none,
    /// as the end of a sentence.
    pub fn put(&mut self, name: &str, found: Result<Arc<Rulebook>, String>) {
        self.rulebooks.remove(name);
        self.missing.remove(name);
        match found {
            Ok(rulebook) => {
                self.rulebooks.insert(name.to_owned(), rulebook);
            }
            Err(reason) => {
                self.missing.insert(name.to_owned(), reason);
            }
        }
    }

    /// Reads a rulebook that may extend one of those on the shelf, and puts it there too.
    pub fn add(&mut self, text: &str) -> Result<Arc<Rulebook>, Vec<RulebookProblem>> {
        let draft = Draft::read(text);
        let base = match &draft.extends {
            Some(extends) => {
                self.rulebooks.get(&extends.text).cloned().map(Some).ok_or_else(|| {
                    RulebookProblem::at(
                        extends.range.clone(),
                        format!("There is no rulebook {}.", extends.text),
                    )
                })
            }
            None => Ok(None),
        };
        let rulebook = Arc::new(Rulebook::set_up(&draft, "unnamed", base)?);
        self.rulebooks.insert(rulebook.name.clone(), rulebook.clone());
        Ok(rulebook)
    }

    /// Holds every sheet to one rulebook, whatever the sheet names: marking by one school's rules.
    #[must_use]
    pub fn bound_to(mut self, rulebook: Arc<Rulebook>) -> Self {
        self.bound = Some(rulebook);
        self
    }

    /// The shelf on which another rulebook holds where a sheet names none.
    #[must_use]
    pub fn with_default(mut self, rulebook: Arc<Rulebook>) -> Self {
        self.default = rulebook;
        self
    }
}

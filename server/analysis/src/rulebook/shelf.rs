//! The shelf of rulebooks that sheets may name: the two built in, and those added to it. Knows no
//! files; whoever reads one puts it here.

use std::collections::BTreeMap;
use std::sync::{Arc, LazyLock};

use toml::Table;

use super::load::whole;
use super::{Rulebook, RulebookProblem};

/// The built-in rulebooks, by name.
const BUILT_IN: [(&str, &str); 2] = [
    ("modal", include_str!("modal.rulebook.toml")),
    ("tonal", include_str!("tonal.rulebook.toml")),
];

/// The name of the rulebook that holds where a sheet names none.
const DEFAULT: &str = "tonal";

static BUILT: LazyLock<BTreeMap<String, Arc<Rulebook>>> = LazyLock::new(build);

fn build() -> BTreeMap<String, Arc<Rulebook>> {
    let read = |(name, text): (&str, &str)| match Rulebook::read(text, &built_in_table) {
        Ok(rulebook) => (name.to_owned(), Arc::new(rulebook)),
        Err(problems) => unreachable!("built-in rulebook {name}: {problems:#?}"),
    };
    BUILT_IN.into_iter().map(read).collect()
}

fn built_in_table(name: &str) -> Option<Table> {
    let (_, text) = BUILT_IN.into_iter().find(|built_in| built_in.0 == name)?;
    let own = toml::from_str(text).ok()?;
    whole(own, &built_in_table).ok()
}

/// The rulebooks that sheets may name.
#[derive(Clone, Debug)]
pub struct Shelf {
    rulebooks: BTreeMap<String, Arc<Rulebook>>,
    default: Arc<Rulebook>,
    bound: Option<Arc<Rulebook>>,
}

impl Default for Shelf {
    fn default() -> Self {
        Self { rulebooks: BUILT.clone(), default: BUILT[DEFAULT].clone(), bound: None }
    }
}

impl Shelf {
    /// The rulebook that holds for a sheet which names this one.
    pub fn get(&self, name: &str) -> Option<&Arc<Rulebook>> {
        self.bound.as_ref().or_else(|| self.rulebooks.get(name))
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

    /// Reads a rulebook that may extend a built-in one, and puts it on the shelf.
    pub fn add(&mut self, text: &str) -> Result<Arc<Rulebook>, Vec<RulebookProblem>> {
        let rulebook = Arc::new(Rulebook::read(text, &built_in_table)?);
        self.rulebooks.insert(rulebook.name.clone(), rulebook.clone());
        Ok(rulebook)
    }

    /// Holds every sheet to one rulebook, whatever the sheet names: marking by one school's rules.
    #[must_use]
    pub fn bound_to(mut self, rulebook: Arc<Rulebook>) -> Self {
        self.bound = Some(rulebook);
        self
    }
}

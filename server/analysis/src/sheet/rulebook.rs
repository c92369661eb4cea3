//! The rulebook that a block names, found on the shelf; where there is none of that name, the
//! default holds and the name is reported.

use std::sync::Arc;

use bicinium_grammar::TextRange;

use crate::finding::{Finding, Level};
use crate::rulebook::{Rulebook, Shelf};

/// The name under which a rulebook that cannot be had is reported.
pub const RULEBOOK: &str = "rulebook";

/// The rulebook in force, and how it was found.
#[derive(Clone, Debug)]
pub(super) struct InForce {
    /// What is named; `None` where the default holds.
    pub(super) name: Option<String>,
    /// What holds.
    pub(super) rulebook: Arc<Rulebook>,
    /// Why what is named does not hold, in a sentence.
    complaint: Option<String>,
}

impl InForce {
    /// What holds where a rulebook is named, or none.
    pub(super) fn of(name: Option<String>, shelf: &Shelf) -> Self {
        let found =
            name.as_deref().map(|name| shelf.get(name).ok_or_else(|| complaint(name, shelf)));
        let (rulebook, complaint) = match found {
            Some(Ok(rulebook)) => (rulebook, None),
            Some(Err(complaint)) => (shelf.default_rulebook(), Some(complaint)),
            None => (shelf.default_rulebook(), None),
        };
        Self { name, rulebook: rulebook.clone(), complaint }
    }

    /// Whether looking for it again would give the same.
    pub(super) fn is_still_on(&self, rulebooks: &Shelf) -> bool {
        let now = Self::of(self.name.clone(), rulebooks);
        now.complaint == self.complaint && Arc::ptr_eq(&now.rulebook, &self.rulebook)
    }

    /// What is said where the rulebook is named, if it does not hold.
    pub(super) fn finding(&self, range: TextRange) -> Option<Finding> {
        let complaint = self.complaint.clone()?;
        Some(Finding::about_text(RULEBOOK, Level::Notation, range, complaint))
    }
}

fn complaint(name: &str, shelf: &Shelf) -> String {
    let default = &shelf.default_rulebook().name;
    if let Some(reason) = shelf.why_missing(name) {
        return format!(
            "The rulebook {name} cannot be used: {reason}. Until then {default} holds."
        );
    }
    let names: Vec<_> = shelf.names().collect();
    let names = names.join(", ");
    format!("There is no rulebook {name}; {default} is used instead. Known are {names}.")
}

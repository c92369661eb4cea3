//! The rulebook that a block names, found on the shelf; where there is none of that name, the
//! default holds and the name is reported.

use std::sync::Arc;

use crate::finding::{Finding, Level};
use crate::rulebook::{Rulebook, Shelf};
use crate::score::settings::Settings;

/// The rulebook in force.
pub(super) fn find(
    settings: &Settings,
    shelf: &Shelf,
    findings: &mut Vec<Finding>,
) -> Arc<Rulebook> {
    let default = shelf.default_rulebook();
    let Some(name) = &settings.rulebook else { return default.clone() };
    if let Some(rulebook) = shelf.get(name) {
        return rulebook.clone();
    }
    if let Some(range) = settings.rulebook_range {
        let names: Vec<_> = shelf.names().collect();
        let message = format!(
            "There is no rulebook {name}; {} is used instead. Known are {}.",
            default.name,
            names.join(", ")
        );
        findings.push(Finding::about_text("rulebook", Level::Notation, range, message));
    }
    default.clone()
}

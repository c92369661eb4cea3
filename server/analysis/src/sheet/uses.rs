//! What is told of a `use` line. Knows nothing of files.

use bicinium_grammar::ast;

use super::Import;
use crate::finding::{Finding, Level};

/// The finding of a sheet that cannot be used, or that uses this one in its turn.
pub(super) fn finding(line: &ast::Use, import: &Import) -> Option<Finding> {
    let (rule, level, message) = match import {
        Err(reason) => {
            let message = format!("The sheet {} cannot be used: {reason}.", line.path);
            ("use", Level::Notation, message)
        }
        Ok(lent) => {
            let way = lent.leads_back.as_ref()?;
            let message = format!(
                "These sheets go in a circle: {way}. Each takes only what stands in the one that it \
                 names, so nothing is lost; what both need is easier to find in a sheet of its own."
            );
            ("use-circle", Level::Advice, message)
        }
    };
    Some(Finding::about_text(rule, level, line.path_range, message))
}

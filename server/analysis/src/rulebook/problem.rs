//! What is wrong with a rulebook, and where it says so. Plain data; knows no rulebook.

use std::ops::Range;

/// Something wrong with a rulebook.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct RulebookProblem {
    /// What is wrong, and what would mend it.
    pub message: String,
    /// Where in the text of the rulebook, in bytes; empty at its beginning where no word is wrong,
    /// but something is missing.
    pub range: Range<usize>,
}

impl RulebookProblem {
    /// A problem at a place.
    pub(super) fn at(range: Range<usize>, message: impl Into<String>) -> Self {
        Self { message: message.into(), range }
    }

    /// A problem of the whole.
    pub(super) fn of_all(message: impl Into<String>) -> Self {
        Self::at(0..0, message)
    }
}

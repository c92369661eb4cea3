//! Rules of this group.

use super::Entry;

/// The rules of this group, in the order in which they are listed.
pub const RULES: &[Entry] = &[];

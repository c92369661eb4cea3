//! Rules about one line by itself.

mod leap_recovery;

use super::{Entry, entry};

/// The rules of this group, in the order in which they are listed.
pub const RULES: &[Entry] = &[entry!(Line, "leap-recovery", leap_recovery::LeapRecovery)];

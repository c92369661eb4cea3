//! Rules about two voices moving.

mod consecutive_perfects;

use super::{Entry, entry};

/// The rules of this group, in the order in which they are listed.
pub const RULES: &[Entry] =
    &[entry!(Pair, "consecutive-perfects", consecutive_perfects::ConsecutivePerfects)];

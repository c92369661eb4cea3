//! A greatest distance between two voices, as a rulebook writes it. Knows no notes.

use bicinium_theory::Interval;
use serde::{Deserialize, Deserializer, de::Error};

/// The widest interval that is still admitted, written by its short name: `"P12"`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Width(Interval);

impl Width {
    /// Whether an interval is wider, whichever voice is on top.
    pub(super) fn is_exceeded_by(self, interval: Interval) -> bool {
        interval.abs() > self.0
    }

    /// "perfect twelfth".
    pub(super) fn words(self) -> String {
        self.0.words()
    }
}

impl<'de> Deserialize<'de> for Width {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let name = String::deserialize(deserializer)?;
        name.parse().map(Self).map_err(D::Error::custom)
    }
}

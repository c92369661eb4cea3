//! A greatest distance between two voices, as a rulebook writes it. Knows no notes.

use bicinium_theory::Interval;
use serde::Deserialize;

use crate::rulebook::Spelt;

/// The widest interval that is still admitted, written by its short name: `"P12"`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(transparent)]
pub(super) struct Width(Spelt<Interval>);

impl Width {
    /// Whether an interval is wider, whichever voice is on top.
    pub(super) fn is_exceeded_by(self, interval: Interval) -> bool {
        interval.abs() > self.0.0
    }

    /// "perfect twelfth".
    pub(super) fn words(self) -> String {
        self.0.0.words()
    }
}

//! Moments of a bar as exact fractions of its length. They must not know how long the bar is.

use std::cmp::Ordering;

/// A moment of a bar, from its beginning at 0 to its end at 1.
#[derive(Clone, Copy, Debug)]
pub(super) struct Share {
    /// How many of the parts have passed.
    passed: u64,
    /// Into how many parts the bar is divided.
    parts: u64,
}

impl Share {
    /// The whole bar.
    pub(super) const BAR: Self = Self { passed: 0, parts: 1 };

    /// The moment at which item `index` of `count` begins that divide this share equally; `None` if
    /// the parts become too small to be counted.
    pub(super) fn divide(self, index: usize, count: usize) -> Option<Self> {
        let (index, count) = (u64::try_from(index).ok()?, u64::try_from(count).ok()?);
        let passed = self.passed.checked_mul(count)?.checked_add(index)?;
        Some(Self { passed, parts: self.parts.checked_mul(count)? })
    }
}

impl Ord for Share {
    fn cmp(&self, other: &Self) -> Ordering {
        let scaled = |share: &Self, parts: u64| u128::from(share.passed) * u128::from(parts);
        scaled(self, other.parts).cmp(&scaled(other, self.parts))
    }
}

impl PartialOrd for Share {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Share {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Share {}

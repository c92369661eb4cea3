//! Lengths of time in ticks, 64 to a whole note. Knows fractions of a whole note; how a length is
//! shown is told in `note_length`.

use std::iter::Sum;
use std::ops::{Add, Mul, Sub};

/// A length of time, or a point in time as the length up to it. Sums and products too large are
/// held at the largest length.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Duration(u32);

impl Duration {
    /// No time at all; as a point in time, the beginning.
    pub const ZERO: Self = Self(0);
    /// A whole note.
    pub const WHOLE: Self = Self(64);
    /// A half note.
    pub const HALF: Self = Self(32);
    /// A quarter note.
    pub const QUARTER: Self = Self(16);
    /// An eighth note.
    pub const EIGHTH: Self = Self(8);

    /// A length in ticks; 64 make a whole note.
    pub const fn from_ticks(ticks: u32) -> Self {
        Self(ticks)
    }

    /// The length of `numerator`/`denominator` of a whole note; none if it is no whole number of
    /// ticks.
    pub fn from_fraction(numerator: u32, denominator: u32) -> Option<Self> {
        let ticks = u64::from(Self::WHOLE.0) * u64::from(numerator);
        let denominator = u64::from(denominator);
        let exact = ticks.checked_rem(denominator)? == 0;
        u32::try_from(ticks / denominator).ok().filter(|_| exact).map(Self)
    }

    /// The length in ticks; 64 make a whole note.
    pub const fn ticks(self) -> u32 {
        self.0
    }

    /// One of so many equal parts; none if they come to no whole number of ticks.
    pub fn divide(self, parts: u32) -> Option<Self> {
        (self.0.checked_rem(parts)? == 0).then_some(Self(self.0 / parts))
    }

    /// Numerator and denominator of the length as a fraction of a whole note, in lowest terms.
    pub fn as_fraction(self) -> (u32, u32) {
        let common = 1 << self.0.trailing_zeros().min(6);
        (self.0 / common, Self::WHOLE.0 / common)
    }
}

impl Add for Duration {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

/// The length between two points in time; none (zero) if the second is the later one.
impl Sub for Duration {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Mul<u32> for Duration {
    type Output = Self;

    fn mul(self, times: u32) -> Self {
        Self(self.0.saturating_mul(times))
    }
}

impl Sum for Duration {
    fn sum<I: Iterator<Item = Self>>(lengths: I) -> Self {
        lengths.fold(Self::ZERO, Add::add)
    }
}

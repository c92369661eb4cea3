//! Points as teachers give them: exact, in hundredths. Must not know what they are given for.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, Sub};

use serde::{Serialize, Serializer};

/// A number of points, exact to a hundredth.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Points(i64);

impl Points {
    /// No points.
    pub const NONE: Self = Self(0);

    /// Whole points.
    pub const fn whole(number: u32) -> Self {
        // A u32 times a hundred fits.
        Self(number as i64 * 100)
    }

    /// Hundredths of a point.
    pub const fn hundredths(number: i64) -> Self {
        Self(number)
    }

    /// Reads a number such as `2` or `0.25`; `None` for what has more than two places or is negative.
    pub fn read(text: &str) -> Option<Self> {
        let (whole, part) = text.split_once('.').unwrap_or((text, "0"));
        let is_number = |text: &str| {
            (1..=6).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit())
        };
        if !is_number(whole) || !is_number(part) {
            return None;
        }
        let part = part.trim_end_matches('0');
        let hundredths = match part.len() {
            0 => 0,
            1 => part.parse::<i64>().ok()? * 10,
            2 => part.parse::<i64>().ok()?,
            _ => return None,
        };
        Some(Self(whole.parse::<i64>().ok()? * 100 + hundredths))
    }

    /// So many times as much.
    #[must_use]
    pub fn times(self, number: usize) -> Self {
        Self(self.0.saturating_mul(i64::try_from(number).unwrap_or(i64::MAX)))
    }

    /// The share of a whole in percent, rounded to the nearest; 0 of nothing.
    pub fn percent_of(self, whole: Self) -> i64 {
        if whole.0 <= 0 { 0 } else { (self.0 * 200 + whole.0) / (whole.0 * 2) }
    }
}

impl fmt::Display for Points {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { "-" } else { "" };
        let (whole, part) = (self.0.abs() / 100, self.0.abs() % 100);
        let text = match (part, part % 10) {
            (0, _) => format!("{sign}{whole}"),
            (_, 0) => format!("{sign}{whole}.{}", part / 10),
            _ => format!("{sign}{whole}.{part:02}"),
        };
        f.pad(&text)
    }
}

impl Add for Points {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

impl Sub for Points {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}

impl Sum for Points {
    fn sum<I: Iterator<Item = Self>>(points: I) -> Self {
        points.fold(Self::NONE, Add::add)
    }
}

impl Serialize for Points {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match i32::try_from(self.0) {
            Ok(number) if number % 100 == 0 => serializer.serialize_i32(number / 100),
            Ok(number) => serializer.serialize_f64(f64::from(number) / 100.0),
            Err(_) => serializer.serialize_str(&self.to_string()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Points;

    #[test]
    fn what_is_read_is_written_again() {
        for text in ["0", "2", "0.5", "0.25", "10.05", "999999"] {
            assert_eq!(Points::read(text).map(|it| it.to_string()), Some(text.to_owned()));
        }
        assert_eq!(Points::read("1.50").map(|it| it.to_string()), Some("1.5".to_owned()));
        for text in ["", "-1", "1.", ".5", "0.125", "1e3", "+1", "12345678"] {
            assert_eq!(Points::read(text), None, "{text}");
        }
    }

    #[test]
    fn a_share_is_rounded_to_the_nearest() {
        let share = |part, whole| Points::whole(part).percent_of(Points::whole(whole));
        assert_eq!((share(1, 3), share(2, 3), share(3, 3), share(0, 0)), (33, 67, 100, 0));
    }
}

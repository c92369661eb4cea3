//! A value of the trade as a rulebook spells it: a pitch, an interval, a numeral, a register. Knows
//! how to read it, not what it is for.

use std::fmt::Display;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, de::Error};

/// A value that is read from its written form.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Spelt<T>(pub T);

impl<'de, T: FromStr<Err: Display>> Deserialize<'de> for Spelt<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        text.parse().map(Self).map_err(D::Error::custom)
    }
}

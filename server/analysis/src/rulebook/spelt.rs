//! A value of the trade as a rulebook spells it: a pitch, an interval, a numeral, a register. Knows
//! how to read it, not what it is for.

use std::fmt::{self, Display};
use std::marker::PhantomData;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, de::Error, de::Visitor};

/// A value that is read from its written form.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Spelt<T>(pub T);

impl<'de, T: FromStr<Err: Display>> Deserialize<'de> for Spelt<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_str(Speller(PhantomData))
    }
}

/// Reads the written form while its place is still known.
struct Speller<T>(PhantomData<T>);

impl<T: FromStr<Err: Display>> Visitor<'_> for Speller<T> {
    type Value = Spelt<T>;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str("a word")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Spelt<T>, E> {
        text.parse().map(Spelt).map_err(E::custom)
    }
}

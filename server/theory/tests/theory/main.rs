//! What the crate promises, by worked examples from any theory primer and by properties over all
//! values.

mod chords;
mod durations;
mod intervals;
mod keys;
mod meters;
mod motions;
mod pitches;
mod strategies;

use std::str::FromStr;

/// Reads a value that the test knows can be read.
fn read<T: FromStr>(text: &str) -> T {
    text.parse().unwrap_or_else(|_| panic!("{text} can be read"))
}

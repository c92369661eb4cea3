//! Tests of the grammar through its public face.

mod edits;
mod formatting;
mod lossless;
mod marks;
mod meaning;
mod problems;
mod reading;
mod reference;
mod sheets;
mod sizes;
mod stretches;

//! The engraving of all worked examples and of all sheets that rules are tried on: nothing overlaps,
//! nothing is missing, and programs of another make read what is written.

#![allow(clippy::unwrap_used)]

mod overlaps;
mod pictures;
mod sheets;
mod systems;

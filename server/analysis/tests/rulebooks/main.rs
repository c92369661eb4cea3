//! Rulebooks that schools write for themselves: what they decide, what is said about their
//! mistakes, and what becomes of those that extend each other.

#![allow(clippy::unwrap_used)]

mod extending;
mod harbour;
mod problems;
mod shelves;
mod sources;
mod unruly;

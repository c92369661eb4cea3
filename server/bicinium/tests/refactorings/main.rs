//! Refactorings: each on a sheet of its own with its result, and all of them on every fixture of the
//! rules, where the judge sees to what they promise.

#![allow(clippy::unwrap_used)]

mod bench;
mod examples;
mod promises;

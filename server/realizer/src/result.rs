//! What is answered: how many ways there are, what each hole may still become, and the best ways.
//! Plain data; decides nothing.

use bicinium_theory::{Duration, Pitch};

use crate::gaps::Hole;

/// How much may be tried before an answer has to be given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Budget {
    /// How many moments may be tried in all.
    pub trials: u64,
    /// How many of the best ways are kept.
    pub best: usize,
}

impl Default for Budget {
    fn default() -> Self {
        Self { trials: 200_000, best: 3 }
    }
}

/// What can still be written in an exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Realizations {
    /// How many ways without a fault were found.
    pub count: u64,
    /// Whether these are all.
    pub extent: Extent,
    /// What each hole may become, in order of time.
    pub openings: Vec<Opening>,
    /// The best ways, the best first.
    pub best: Vec<Realization>,
    /// Where it comes to an end, if there is no way.
    pub dead_end: Option<DeadEnd>,
}

/// Whether all ways have been found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Extent {
    /// All.
    All,
    /// The budget was used up before the last way was tried.
    AtLeast,
}

/// A hole and what it may become.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Opening {
    /// The hole.
    pub hole: Hole,
    /// The pitches from which the end can be reached, each with the resistance of the best way, the
    /// best first.
    pub viable: Vec<(Pitch, u64)>,
}

/// One way to fill all holes.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Realization {
    /// How much resistance it meets; the least is the best.
    pub resistance: u64,
    /// A pitch for each hole, in order of time, the upper voice first.
    pub pitches: Vec<Pitch>,
}

/// Where every way comes to an end.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DeadEnd {
    /// The latest moment that no way passes.
    pub onset: Duration,
    /// The rules that close it.
    pub rules: Vec<&'static str>,
}

//! The judge: the one place that decides what is right. It walks through the moments of a score,
//! asks every rule in force at every step, and lets the reading decide what depends on harmony.
//! Checking, mending and realizing all run on it. Knows no text and no editor.

mod course;
mod memory;
mod moment;
mod report;
mod sight;
mod step;
mod verdict;

pub use course::{Change, Course};
pub use memory::{Extreme, LineMemory, LineState, Memory, Moves, PairMemory, Run, Sounded};
pub use moment::{Heard, Moment, Stroke, moments};
pub use report::{Admission, Breach, Detail, Report, Spot, Words};
pub use sight::{Matter, Sight, Trace};
pub use step::{Close, Progression, Step};
pub use verdict::{Verdict, judge};

//! What can still be written, as plain data made from a snapshot: what an open place may become, and
//! how all of them may be filled. The realizer finds the ways; here they are only put into words and
//! edits.

mod bar_text;
mod choices;
mod fillings;
mod missing;
mod places;

use std::time::Duration;

use bicinium_realizer::Budget;

pub use bar_text::bar_text;
pub use choices::{Choice, Choices, choices};
pub use fillings::{Filling, edits, fillings};
pub use places::{Open, open_at};

/// How long somebody may wait who only looks whether something is offered. The trials bound how much
/// is remembered at once.
const PROMPT: Budget = Budget { trials: 100_000, time: Duration::from_secs(1) };

//! What can still be written, as plain data made from a snapshot: what an open place may become, and
//! how all of them may be filled. The realizer finds the ways; here they are only put into words and
//! edits.

mod bar_text;
mod choices;
mod dead_end;
mod filled;
mod fillings;
mod missing;
mod places;
mod prospect;
mod rewriting;

use std::time::Duration;

use bicinium_realizer::Budget;

pub use bar_text::{bar_of, bar_text};
pub use choices::{Choice, Choices, choices};
pub use dead_end::{DEAD_END, closed_by, foresee, is_in_doubt, known_dead_end};
pub use filled::with_choice;
pub use fillings::{Filling, edits, fillings};
pub use places::{Open, open_at};
pub use prospect::{Prospect, best_way, prospect};
pub use rewriting::rewriting;

/// How long somebody may wait who only looks whether something is offered. The trials bound how much
/// is remembered at once.
pub(super) const PROMPT: Budget = Budget { trials: 300_000, time: Duration::from_secs(1) };

//! A cantus composed, and how hard it is to write against, as plain data. The judge decides what a
//! cantus may be, and the realizer finds it; here it is only asked for. It must not know how it is told.

mod cantus;
mod measure;

use std::sync::Arc;

use bicinium_analysis::{Exercise, Rulebook, Sheet, Shelf};

pub use cantus::{Cantus, Refusal, Wish};
pub use measure::{Measure, Side};

/// The one exercise of a text, judged by a rulebook.
fn exercise(text: &str, rulebook: &Arc<Rulebook>) -> Option<Exercise> {
    let shelf = Shelf::default().bound_to(rulebook.clone());
    let snapshot = Sheet::new(text, Arc::new(shelf)).snapshot();
    snapshot.exercises().next().map(|known| known.2.clone())
}

/// A row with so many blank bars.
fn blank_row(voice: impl std::fmt::Display, length: usize) -> String {
    format!("  {voice} |{}\n", " |".repeat(length))
}

//! What stands above an exercise for as long as it is written: a line of text for each thing that is
//! worth seeing without asking. Each kind of line has a module of its own; none knows how it is shown.

pub mod prospect;
mod state;

use bicinium_analysis::sheet::Judged;
use bicinium_grammar::{TextRange, ast};

/// A line above an exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lens {
    /// The opening line of the exercise, counted from the start of its block.
    pub range: TextRange,
    /// What it says.
    pub title: String,
    /// Whether there is more to say about what is open in the exercise for who takes the time.
    pub more: More,
}

/// What there is to say besides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum More {
    /// What can become of it.
    Outlook,
    /// Nothing.
    Nothing,
}

/// The line above a block; nothing if it is no exercise.
pub fn lens(block: &Judged) -> Option<Lens> {
    let (exercise, ast::Block::Exercise(written)) = (block.exercise.as_ref()?, block.tree.ast())
    else {
        return None;
    };
    let more = if prospect::is_open(exercise) { More::Outlook } else { More::Nothing };
    Some(Lens { range: written.head_range(), title: state::of(block, exercise), more })
}

//! What stands above an exercise for as long as it is written: a line of text for each thing that is
//! worth seeing without asking. Each kind of line has a module of its own; none knows how it is shown.

pub mod prospect;
mod state;

use std::ops::Range;

use bicinium_analysis::Snapshot;
use bicinium_analysis::sheet::Placed;
use bicinium_grammar::ast;

/// A line above an exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lens {
    /// The opening line of the exercise, in bytes of the sheet.
    pub range: Range<usize>,
    /// What it says.
    pub title: String,
    /// The number of the exercise in its sheet, from 1, if there is more to say about what is open in it
    /// for who takes the time.
    pub open: Option<usize>,
}

/// The lines above all exercises of a sheet, in the order of the text.
pub fn lenses(snapshot: &Snapshot) -> Vec<Lens> {
    let of_one = |(number, block, exercise)| Lens {
        range: head(block),
        title: state::of(block, exercise),
        open: prospect::is_open(exercise).then_some(number),
    };
    snapshot.exercises().map(of_one).collect()
}

fn head(block: &Placed) -> Range<usize> {
    match block.judged.tree.ast() {
        ast::Block::Exercise(exercise) => block.in_sheet(exercise.head_range()),
        _ => block.start..block.start,
    }
}

//! What stands above an exercise for as long as it is written: a line of text for each thing that is
//! worth seeing without asking. Each kind of line has a module of its own; none knows how it is shown.

mod state;

use std::ops::Range;

use bicinium_analysis::sheet::Placed;
use bicinium_analysis::{Exercise, Snapshot};
use bicinium_grammar::ast;

/// A line above an exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lens {
    /// The opening line of the exercise, in bytes of the sheet.
    pub range: Range<usize>,
    /// What it says.
    pub title: String,
}

/// The lines above all exercises of a sheet, in the order of the text.
pub fn lenses(snapshot: &Snapshot) -> Vec<Lens> {
    let of_one = |(_, block, exercise)| {
        let range = head(block);
        titles(block, exercise).map(move |title| Lens { range: range.clone(), title })
    };
    snapshot.exercises().flat_map(of_one).collect()
}

/// What is said above one exercise, line by line.
fn titles(block: &Placed, exercise: &Exercise) -> impl Iterator<Item = String> + use<> {
    [state::of(block, exercise)].into_iter()
}

fn head(block: &Placed) -> Range<usize> {
    match block.judged.tree.ast() {
        ast::Block::Exercise(exercise) => block.in_sheet(exercise.head_range()),
        _ => block.start..block.start,
    }
}

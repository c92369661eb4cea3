//! What the page shows, as plain data: the exercises of a sheet (`sheet`), one of them with its score,
//! its notes in time, its harmonies and findings (`exercise`), and what an open place may become
//! (`openings`). Shows what the analysis and the realizer say, and reckons nothing.

mod chord;
mod exercise;
mod openings;
mod sheet;

pub(super) use exercise::{Wish, shown, tried};
pub(super) use openings::openings;
pub(super) use sheet::contents;

use bicinium_analysis::Snapshot;
use bicinium_export::Piece;

fn pieces(sheet: &Snapshot) -> impl Iterator<Item = Piece<'_>> {
    sheet.exercises().map(|(number, block, exercise)| Piece {
        number,
        exercise,
        findings: &block.judged.findings,
    })
}

//! The report for people: one finding after the other, and a closing line. It must not know how a
//! finding is told.

use std::io;

use bicinium_analysis::Level;

use super::{Marking, tally};
use crate::cli::lines::Lines;
use crate::cli::output::Output;
use crate::cli::telling::told;

/// Writes the findings down to the mildest level that is shown, and a closing line; `none` is said where
/// there are no sheets.
pub(super) fn write(
    marking: &Marking,
    mildest: Level,
    none: &str,
    output: &mut Output,
) -> io::Result<()> {
    for rulebook in &marking.rulebooks {
        output.line(&rulebook.told())?;
    }
    for sheet in &marking.sheets {
        let lines = Lines::new(&sheet.text);
        for located in sheet.down_to(mildest) {
            output.line(&told(&sheet.source.name(), &lines, located))?;
        }
    }
    match marking.sheets.as_slice() {
        [] if !marking.complaints.is_empty() => Ok(()),
        [] => output.line(none),
        _ => output.line(&tally::closing(marking, mildest)),
    }
}

//! The report for people: one finding after the other, and a closing line. It must not know how a
//! finding is told.

use std::io;

use bicinium_analysis::Level;

use super::marked::Marked;
use super::tally;
use crate::cli::lines::Lines;
use crate::cli::output::Output;
use crate::cli::telling::told;

/// Writes the findings down to the mildest level that is shown, and a closing line.
pub(super) fn write(marked: &[Marked], mildest: Level, output: &mut Output) -> io::Result<()> {
    for sheet in marked {
        let lines = Lines::new(&sheet.text);
        for located in sheet.down_to(mildest) {
            output.line(&told(&sheet.source.name(), &lines, located))?;
        }
    }
    match marked {
        [] => output.line("No sheets were found."),
        _ => output.line(&tally::closing(marked, mildest)),
    }
}

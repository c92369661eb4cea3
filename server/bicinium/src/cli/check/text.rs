//! The report for people: one finding after the other, and a closing line. It must not know how a
//! finding is told.

use std::io;

use bicinium_analysis::Level;
use rayon::prelude::*;

use super::{Marking, tally};
use crate::cli::lines::Lines;
use crate::cli::marked::Marked;
use crate::cli::output::Output;
use crate::cli::telling::told;

/// The findings in so many sheets are put into words at a time, on all cores, and then written.
const TOGETHER: usize = 64;

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
    for sheets in marking.sheets.chunks(TOGETHER) {
        let findings: Vec<_> = sheets.par_iter().map(|sheet| findings(sheet, mildest)).collect();
        findings.iter().flatten().try_for_each(|finding| output.line(finding))?;
    }
    match marking.sheets.as_slice() {
        [] if !marking.complaints.is_empty() => Ok(()),
        [] => output.line(none),
        _ => output.line(&tally::closing(marking, mildest)),
    }
}

/// The findings in a sheet, each in its own words.
fn findings(sheet: &Marked, mildest: Level) -> Vec<String> {
    let (name, lines) = (sheet.source.name(), Lines::new(&sheet.text));
    sheet.down_to(mildest).map(|located| told(&name, &lines, located)).collect()
}

//! Writes ways into a sheet: the file is replaced as a whole, once everything is found. It must not know
//! how ways are found.

use std::io;

use bicinium_realizer::Realization;

use super::answer::{Answer, Task};
use crate::cli::Outcome;
use crate::cli::desk::Desk;
use crate::cli::marked::Marked;
use crate::cli::output::Output;
use crate::cli::sources::Source;
use crate::cli::words::shown;
use crate::disk;
use crate::features::realizing::edits;

/// Puts the ways of all answers into the file; standard input is answered on standard output.
pub(super) fn write(
    sheet: &Marked,
    answers: &[Answer<'_>],
    output: &mut Output,
) -> io::Result<Outcome> {
    let way =
        |answer: &Answer<'_>| answer.ways.as_ref().and_then(|ways| ways.found.first()).cloned();
    let found: Vec<_> =
        answers.iter().filter_map(|answer| Some((answer.task, way(answer)?))).collect();
    if found.len() < answers.len() {
        output
            .complain("Nothing was written: not every exercise has a way that was found in time.");
        return Ok(Outcome::Failed);
    }
    let ways: Vec<_> = found.iter().map(|(task, way)| (*task, way)).collect();
    let text = text(sheet, &ways);
    let Source::File(path) = &sheet.source else {
        output.write(&text)?;
        return Ok(Outcome::Clean);
    };
    match disk::write(path, &text) {
        Ok(()) => {
            output.line(&shown(&format!("Written into {}.", sheet.source.name())))?;
            Ok(Outcome::Clean)
        }
        Err(error) => {
            let reason = disk::reason(&error);
            output.complain(&format!("{} cannot be written: {reason}.", sheet.source.name()));
            Ok(Outcome::Failed)
        }
    }
}

/// The sheet with ways written into it, judged anew.
pub(super) fn rewritten(
    sheet: &Marked,
    ways: &[(Task<'_>, &Realization)],
    desk: &mut Desk,
) -> Marked {
    Marked::new(sheet.source.clone(), text(sheet, ways), desk)
}

fn text(sheet: &Marked, ways: &[(Task<'_>, &Realization)]) -> String {
    let changes = ways.iter().map(|(task, way)| edits(task.block, task.exercise, way));
    let mut changes: Vec<_> = changes.flatten().collect();
    changes.sort_by_key(|change| change.0.start);
    let mut text = sheet.text.clone();
    for (range, insert) in changes.into_iter().rev() {
        text.replace_range(range, &insert);
    }
    text
}

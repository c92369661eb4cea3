//! `bicinium export`: exercises are written into a file for other programs, or as a picture. It must not
//! know how any of their formats is put together.

mod format;

use std::io;

use bicinium_analysis::sheet::{Exercise, Placed, Snapshot};
use bicinium_export::Piece;

use self::format::Format;
use super::Outcome;
use super::arguments::Export;
use super::desk::{Desk, workspace};
use super::files::{Existing, put};
use super::marked::Marked;
use super::output::Output;
use super::sources::Source;
use super::words::{count, shown};

/// Writes the file, or says why not.
pub(super) fn run(options: &Export, output: &mut Output) -> io::Result<Outcome> {
    if let Err(complaint) = export(options) {
        output.complain(&complaint);
        return Ok(Outcome::Failed);
    }
    output.line(&format!("{} written.", shown(&options.output.display().to_string())))?;
    Ok(Outcome::Clean)
}

fn export(options: &Export) -> Result<(), String> {
    let format = Format::of(&options.output)?;
    let source = Source::at(&options.sheet);
    let text = source.read()?;
    let marked = Marked::new(source, text, &mut Desk::new(workspace(&options.reach, &[])));
    let pieces = chosen(marked.snapshot(), options.exercise, format)?;
    let existing = if options.force { Existing::Replaced } else { Existing::Kept };
    put(&options.output, &format.bytes(&pieces, options)?, existing)
}

/// The exercises that are meant: the one of a number, or all where a file can hold several.
fn chosen(
    snapshot: &Snapshot,
    number: Option<usize>,
    format: Format,
) -> Result<Vec<Piece<'_>>, String> {
    let all: Vec<_> = snapshot.exercises().map(piece).collect();
    match (number, all.len()) {
        (_, 0) => Err("There is no exercise in the sheet.".to_owned()),
        (None, several) if several > 1 && format.holds_one() => Err(format!(
            "The sheet has {several} exercises: say which one, with --exercise 1 to {several}."
        )),
        (None, _) => Ok(all),
        (Some(number), several) => {
            let one = all.into_iter().find(|piece| piece.number == number);
            let exercises = count(several, "exercise", "exercises");
            let missing = || format!("There is no such exercise; the sheet has {exercises}.");
            one.map(|piece| vec![piece]).ok_or_else(missing)
        }
    }
}

fn piece<'a>((number, block, exercise): (usize, &'a Placed, &'a Exercise)) -> Piece<'a> {
    Piece { number, exercise, findings: &block.judged.findings }
}

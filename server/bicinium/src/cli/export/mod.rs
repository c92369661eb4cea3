//! `bicinium export`: exercises are written into a file for other programs, or as a picture. It must not
//! know how any of their formats is put together.

mod format;

use std::fs::File;
use std::io::{self, Write};
use std::path::Path;

use bicinium_analysis::sheet::{Exercise, Placed, Snapshot};
use bicinium_export::Piece;

use self::format::Format;
use super::Outcome;
use super::arguments::Export;
use super::marked::{By, Marked};
use super::output::Output;
use super::sources::Source;
use super::words::{count, shown};
use crate::disk;
use crate::schools::Schools;

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
    let source = match options.sheet.as_path() {
        path if path == Path::new("-") => Source::Input,
        path => Source::File(path.to_owned()),
    };
    let text = source.read()?;
    let marked = Marked::new(source, text, &mut By::Theirs(Schools::default()));
    let pieces = chosen(marked.snapshot(), options.exercise, format)?;
    put(options, &format.bytes(&pieces, options)?)
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

/// Writes the file; one that is there already only if that is wished.
fn put(options: &Export, bytes: &[u8]) -> Result<(), String> {
    let path = &options.output;
    let name = path.display();
    let opened = if options.force { File::create(path) } else { File::create_new(path) };
    let done = opened.and_then(|mut file| file.write_all(bytes));
    done.map_err(|error| match error.kind() {
        io::ErrorKind::AlreadyExists => {
            format!(
                "{name} is there already and is not replaced; name another file, or add --force."
            )
        }
        _ => format!("{name} cannot be written: {}.", disk::reason(&error)),
    })
}

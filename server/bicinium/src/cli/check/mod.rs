//! `bicinium check`: marks sheets and tells what was found. It must not know how a sheet is judged
//! or how each kind of report looks.

mod json;
mod marked;
mod sarif;
mod tally;
mod text;

use std::io;
use std::sync::Arc;

use bicinium_analysis::Shelf;

use self::marked::Marked;
use super::Outcome;
use super::arguments::{Check, Report};
use super::output::Output;
use super::school;
use super::sources::{self, Source};

/// Marks the sheets that are meant.
pub(super) fn run(options: &Check, output: &mut Output) -> io::Result<Outcome> {
    let shelf = match school::shelf(options.rulebook.as_deref()) {
        Ok(shelf) => shelf,
        Err(message) => {
            output.complain(&message);
            return Ok(Outcome::Failed);
        }
    };
    let found = sources::find(&options.paths);
    let (marked, unreadable) = mark(&found.sources, &shelf);
    let complaints = [found.complaints, unreadable].concat();
    tell(options, &marked, &complaints, output)?;
    for complaint in &complaints {
        output.complain(complaint);
    }
    Ok(outcome(&marked, &complaints))
}

/// The sheets that can be read, marked, and what has to be said about the others.
fn mark(sources: &[Source], shelf: &Arc<Shelf>) -> (Vec<Marked>, Vec<String>) {
    let mut complaints = Vec::new();
    let mut marked = Vec::new();
    for source in sources {
        match source.read() {
            Ok(text) => marked.push(Marked::new(source.clone(), text, shelf)),
            Err(complaint) => complaints.push(complaint),
        }
    }
    (marked, complaints)
}

fn tell(
    options: &Check,
    marked: &[Marked],
    complaints: &[String],
    output: &mut Output,
) -> io::Result<()> {
    let mildest = options.level.level();
    match options.format {
        Report::Text => text::write(marked, mildest, output),
        Report::Json => output.line(&json::report(marked, mildest)?),
        Report::Sarif => output.line(&sarif::report(marked, mildest, complaints)?),
    }
}

fn outcome(marked: &[Marked], complaints: &[String]) -> Outcome {
    match complaints {
        [] if !marked.iter().any(Marked::has_faults) => Outcome::Clean,
        [] => Outcome::Faults,
        _ => Outcome::Failed,
    }
}

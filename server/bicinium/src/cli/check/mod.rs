//! `bicinium check`: marks sheets and tells what was found. It must not know how a sheet is judged
//! or how each kind of report looks.

mod changed;
mod json;
mod sarif;
mod tally;
mod text;

use std::io;

use self::changed::Changed;
use super::Outcome;
use super::arguments::{Check, Report};
use super::broken::Broken;
use super::crew;
use super::desk::{Desk, workspace};
use super::marked::Marked;
use super::output::Output;
use super::school;
use super::sources::{self, Source};
use crate::schools::Schools;

/// What came of marking.
#[derive(Debug, Default)]
struct Marking {
    /// The sheets that could be read.
    sheets: Vec<Marked>,
    /// The rulebooks in which something is wrong.
    rulebooks: Vec<Broken>,
    /// What could not be done.
    complaints: Vec<String>,
}

/// Marks the sheets that are meant.
pub(super) fn run(options: &Check, output: &mut Output) -> io::Result<Outcome> {
    let desk = Desk::new(workspace(&options.reach, &options.paths));
    let desk = match &options.rulebook {
        Some(name) => school::named(name).map(|rulebook| desk.bound_to(rulebook)),
        None => Ok(desk),
    };
    let marking = match desk {
        Ok(desk) => mark(options, &desk),
        Err(refused) => Marking {
            sheets: Vec::new(),
            rulebooks: refused.broken,
            complaints: vec![refused.complaint],
        },
    };
    tell(options, &marking, output)?;
    for complaint in &marking.complaints {
        output.complain(complaint);
    }
    Ok(marking.outcome())
}

fn mark(options: &Check, desk: &Desk) -> Marking {
    let mut found = sources::find(&options.paths);
    if let Some(revision) = &options.changed_since {
        match Changed::since(revision) {
            Ok(changed) => {
                let schools = &mut Schools::default();
                found.sources.retain(|source| changed.concerns(source, schools));
            }
            Err(complaint) => {
                return Marking { complaints: vec![complaint], ..Marking::default() };
            }
        }
    }
    let mut marking = Marking { complaints: found.complaints, ..Marking::default() };
    let mark = |source: &Source, desk: &mut Desk| {
        source.read().map(|text| Marked::new(source.clone(), text, desk))
    };
    for marked in crew::all(&found.sources, || desk.afresh(), mark) {
        marking.take(marked);
    }
    if !desk.is_bound() {
        let files = marking.sheets.iter().flat_map(|sheet| &sheet.rulebooks);
        let files: std::collections::BTreeSet<_> = files.collect();
        let mut schools = Schools::default();
        for file in &files {
            schools.look_up(file, desk.files());
        }
        marking.rulebooks = Broken::among(&schools, files);
    }
    marking
}

fn tell(options: &Check, marking: &Marking, output: &mut Output) -> io::Result<()> {
    let mildest = options.level.level();
    match options.format {
        Report::Text => {
            let none = if options.changed_since.is_some() {
                "No sheets have changed."
            } else {
                "No sheets were found."
            };
            text::write(marking, mildest, none, output)
        }
        Report::Json => output.line(&json::report(marking, mildest)?),
        Report::Sarif => output.line(&sarif::report(marking, mildest)?),
    }
}

impl Marking {
    fn take(&mut self, marked: Result<Marked, String>) {
        match marked {
            Ok(sheet) => self.sheets.push(sheet),
            Err(complaint) => self.complaints.push(complaint),
        }
    }

    fn outcome(&self) -> Outcome {
        let is_wrong = !self.rulebooks.is_empty() || self.sheets.iter().any(Marked::has_faults);
        match self.complaints.as_slice() {
            [] if is_wrong => Outcome::Faults,
            [] => Outcome::Clean,
            _ => Outcome::Failed,
        }
    }
}

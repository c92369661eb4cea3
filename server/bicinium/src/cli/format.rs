//! `bicinium format`: lays out sheets. It must not know how a sheet is laid out.

use std::io;

use super::Outcome;
use super::arguments::Format;
use super::output::Output;
use super::sources::{self, Found, Source};
use super::words::{count, shown};
use crate::disk;

/// Lays out the sheets that are meant, or says which are laid out otherwise.
pub(super) fn run(options: &Format, output: &mut Output) -> io::Result<Outcome> {
    let Found { sources, complaints } = sources::find(&options.paths);
    let mut work = Work { output, complaints, others: 0 };
    for source in &sources {
        if options.check { work.compare(source)? } else { work.lay_out(source)? }
    }
    let others = work.others;
    let is_done =
        work.end(&sources, if options.check { "to be laid out" } else { "laid out anew" })?;
    Ok(match others {
        _ if !is_done => Outcome::Failed,
        1.. if options.check => Outcome::Faults,
        _ => Outcome::Clean,
    })
}

struct Work<'a> {
    output: &'a mut Output,
    complaints: Vec<String>,
    /// How many sheets were laid out otherwise.
    others: usize,
}

impl Work<'_> {
    fn compare(&mut self, source: &Source) -> io::Result<()> {
        let Some((text, formatted)) = self.read(source) else { return Ok(()) };
        if text == formatted {
            return Ok(());
        }
        self.others += 1;
        self.output.line(&shown(&source.name()))
    }

    fn lay_out(&mut self, source: &Source) -> io::Result<()> {
        let Some((text, formatted)) = self.read(source) else { return Ok(()) };
        match source {
            Source::Input => self.output.write(&formatted),
            Source::File(_) if text == formatted => Ok(()),
            Source::File(path) => match disk::write(path, &formatted) {
                Ok(()) => {
                    self.others += 1;
                    self.output.line(&shown(&source.name()))
                }
                Err(error) => {
                    let reason = disk::reason(&error);
                    self.complaints.push(format!("{} cannot be written: {reason}.", source.name()));
                    Ok(())
                }
            },
        }
    }

    /// The text of a sheet as it is and as it would be laid out.
    fn read(&mut self, source: &Source) -> Option<(String, String)> {
        match source.read() {
            Ok(text) => {
                let formatted = bicinium_grammar::format(&text);
                Some((text, formatted))
            }
            Err(complaint) => {
                self.complaints.push(complaint);
                None
            }
        }
    }

    /// Says what was done, and what could not be; whether all was.
    fn end(self, sources: &[Source], done: &str) -> io::Result<bool> {
        if !sources.contains(&Source::Input) {
            let sheets = count(sources.len(), "sheet", "sheets");
            self.output.line(&format!("{sheets}: {} {done}.", self.others))?;
        }
        self.complaints.iter().for_each(|complaint| self.output.complain(complaint));
        Ok(self.complaints.is_empty())
    }
}

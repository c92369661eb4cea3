//! `bicinium mark`: marks what was handed in for an assignment. It must not know how a mark is made or
//! how each kind of report looks.

mod gather;
mod html;
mod json;
mod rubric;
mod spreadsheet;
mod table;

use std::io;
use std::path::PathBuf;

use bicinium_coursework::{Assignment, Class, Rubric};

use super::Outcome;
use super::arguments::{Mark, Marks};
use super::desk::{Desk, workspace};
use super::files::{Existing, put};
use super::output::Output;
use super::words::shown;

/// A class and by what it was marked.
struct Report<'a> {
    class: &'a Class,
    rubric: &'a Rubric,
    /// The assignment as the person named it.
    assignment: String,
    /// How many sheets without any exercise were passed over.
    passed_over: usize,
}

/// Why nothing can be marked: what is to be shown, and what has to be said about it.
struct Refused {
    shown: String,
    complaint: String,
}

/// Marks the hand-ins and tells the marks.
pub(super) fn run(options: &Mark, output: &mut Output) -> io::Result<Outcome> {
    match mark(options) {
        Ok((text, unread)) => {
            let written = deliver(options, &text);
            for complaint in &unread {
                output.complain(complaint);
            }
            match written {
                Ok(said) => output.write(&said)?,
                Err(complaint) => {
                    output.complain(&complaint);
                    return Ok(Outcome::Failed);
                }
            }
            Ok(if unread.is_empty() { Outcome::Clean } else { Outcome::Failed })
        }
        Err(refused) => {
            if !refused.shown.is_empty() {
                output.line(&refused.shown)?;
            }
            output.complain(&refused.complaint);
            Ok(Outcome::Failed)
        }
    }
}

/// The report, and what could not be read.
fn mark(options: &Mark) -> Result<(String, Vec<String>), Refused> {
    let own;
    let rubric = match &options.rubric {
        Some(path) => {
            own = rubric::read(path)?;
            &own
        }
        None => Rubric::plain(),
    };
    let beside = options.against.parent().map(PathBuf::from);
    let folders: Vec<_> = options.hand_ins.iter().cloned().chain(beside).collect();
    let desk = Desk::new(workspace(&options.reach, &folders));
    let assignment: Assignment = gather::assignment(&options.against, &desk)?;
    let gathered =
        gather::hand_ins(&options.hand_ins, &options.against, &assignment, rubric, &desk);
    let tell =
        |unread: &bicinium_coursework::Unread| format!("{}: {}", unread.sheet, unread.reason);
    let complaints = gathered.unread.iter().map(tell).collect();
    let mut class = Class::new(assignment, rubric, gathered.students, gathered.unread);
    if options.anonymous {
        class.hide_names();
    }
    let report = Report {
        class: &class,
        rubric,
        assignment: options.against.display().to_string(),
        passed_over: gathered.passed_over,
    };
    Ok((told(&report, options.format)?, complaints))
}

fn told(report: &Report<'_>, format: Marks) -> Result<String, Refused> {
    match format {
        Marks::Table => Ok(table::told(report)),
        Marks::Html => Ok(html::page(report).into_string()),
        Marks::Csv => spreadsheet::rows(report).map_err(|error| refused(&error.to_string())),
        Marks::Json => json::report(report).map_err(|error| refused(&error.to_string())),
    }
}

fn refused(reason: &str) -> Refused {
    Refused { shown: String::new(), complaint: format!("The marks cannot be told: {reason}.") }
}

/// Writes the report where it is wanted; what is to be printed.
fn deliver(options: &Mark, text: &str) -> Result<String, String> {
    let Some(path): Option<&PathBuf> = options.output.as_ref() else { return Ok(text.to_owned()) };
    let existing = if options.force { Existing::Replaced } else { Existing::Kept };
    put(path, text.as_bytes(), existing)?;
    Ok(format!("{} written.\n", shown(&path.display().to_string())))
}

//! `bicinium realize`: says what can still be written in a sheet, and writes it if asked to. It must
//! not know how ways are found.

mod answer;
mod json;
mod rows;
mod text;
mod write;

use std::io;

use self::answer::{Answer, Question, Task};
use super::Outcome;
use super::arguments::{Realize, Telling};
use super::desk::{Desk, workspace};
use super::marked::Marked;
use super::output::Output;
use super::sources::Source;
use super::words::count;

/// Answers what is asked about a sheet.
pub(super) fn run(options: &Realize, output: &mut Output) -> io::Result<Outcome> {
    let question = match Question::of(options) {
        Ok(question) => question,
        Err(complaint) => return Ok(refuse(output, &complaint)),
    };
    let source = match options.file.to_str() {
        Some("-") => Source::Input,
        _ => Source::File(options.file.clone()),
    };
    let text = match source.read() {
        Ok(text) => text,
        Err(complaint) => return Ok(refuse(output, &complaint)),
    };
    let mut desk = Desk::new(workspace(&options.reach, &[]));
    let sheet = Marked::new(source, text, &mut desk);
    let tasks = match Task::all(&sheet, options) {
        Ok(tasks) => tasks,
        Err(complaint) => return Ok(refuse(output, &complaint)),
    };
    let answers: Vec<_> =
        tasks.iter().map(|task| Answer::find(task, question, options.time)).collect();
    match options.format {
        Telling::Json => output.line(&json::tell(&sheet, &answers, &desk)?)?,
        Telling::Text => text::tell(&sheet, &answers, output)?,
    }
    let outcome = answers.iter().map(Answer::outcome).max().unwrap_or(Outcome::Clean);
    if options.write && outcome == Outcome::Clean {
        return write::write(&sheet, &answers, output);
    }
    Ok(outcome)
}

fn refuse(output: &mut Output, complaint: &str) -> Outcome {
    output.complain(complaint);
    Outcome::Failed
}

/// "Exercise 2".
fn heading(number: usize) -> String {
    format!("Exercise {number}")
}

/// "3 exercises".
fn exercises(number: usize) -> String {
    count(number, "exercise", "exercises")
}

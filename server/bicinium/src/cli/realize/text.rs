//! What can still be written, told to people. It must not know how it was found.

use std::io;

use bicinium_analysis::Exercise;
use bicinium_analysis::rules::wording;
use bicinium_analysis::score::VoiceId;
use bicinium_realizer::{Count, DeadEnd, Extent, Found, Opening, Realization};

use super::answer::Answer;
use super::heading;
use super::rows::rows;
use crate::cli::marked::Marked;
use crate::cli::output::Output;
use crate::cli::words::{hanging, shown, wrapped};
use crate::features::realizing::closed_by;
use crate::features::words::grouped;

/// Tells all answers about a sheet.
pub(super) fn tell(sheet: &Marked, answers: &[Answer<'_>], output: &mut Output) -> io::Result<()> {
    for (index, answer) in answers.iter().enumerate() {
        if index > 0 {
            output.line("")?;
        }
        output.line(&shown(&format!("{}, {}", sheet.source.name(), title(answer))))?;
        tell_one(answer, output)?;
    }
    Ok(())
}

/// "exercise 2".
fn title(answer: &Answer<'_>) -> String {
    heading(answer.task.number).to_lowercase()
}

fn tell_one(answer: &Answer<'_>, output: &mut Output) -> io::Result<()> {
    let exercise = answer.task.exercise;
    if let Some(count) = &answer.count {
        output.line(&wrapped(&counted(count, answer.seconds), "  "))?;
    }
    if let Some(ways) = &answer.ways {
        tell_ways(answer, ways, output)?;
    }
    if let Some(openings) = &answer.openings {
        tell_openings(exercise, openings, answer.seconds, output)?;
    }
    if let Some(dead_end) = &answer.dead_end {
        output.line(&wrapped(&closed(dead_end), "  "))?;
    }
    Ok(())
}

/// "1,204 realizations."
fn counted(count: &Count, seconds: u64) -> String {
    let number = grouped(&count.number);
    match (number.as_str(), count.extent) {
        ("0", Extent::All) => "No way is left.".to_owned(),
        ("1", Extent::All) => "1 realization.".to_owned(),
        (_, Extent::All) => format!("{number} realizations."),
        ("0", Extent::AtLeast) => unfinished("No way was found yet", seconds),
        (_, Extent::AtLeast) => unfinished(&format!("More than {number} realizations"), seconds),
    }
}

fn unfinished(said: &str, seconds: u64) -> String {
    format!("{said}; the search was ended after {seconds} seconds. `--time` gives it longer.")
}

fn tell_ways(
    answer: &Answer<'_>,
    ways: &Found<Realization>,
    output: &mut Output,
) -> io::Result<()> {
    for (index, way) in ways.found.iter().enumerate() {
        let resistance = format!("resistance {}", way.resistance);
        let number = if ways.found.len() > 1 { format!("{}. ", index + 1) } else { String::new() };
        output.line(&format!("  {number}{resistance}"))?;
        for row in rows(answer.task.exercise, way) {
            output.line(&row)?;
        }
    }
    let is_told = answer.count.is_some();
    match (ways.extent, ways.found.len()) {
        (Extent::All, 0) if !is_told => output.line("  No way is left."),
        (Extent::AtLeast, 0) if !is_told => {
            output.line(&wrapped(&unfinished("Nothing was found yet", answer.seconds), "  "))
        }
        (Extent::AtLeast, 1..) => {
            let said = unfinished("There may be better or further ones", answer.seconds);
            output.line(&wrapped(&said, "  "))
        }
        _ => Ok(()),
    }
}

fn tell_openings(
    exercise: &Exercise,
    openings: &Found<Opening>,
    seconds: u64,
    output: &mut Output,
) -> io::Result<()> {
    for opening in &openings.found {
        let place = wording::place(&exercise.score.setting, opening.onset);
        let voice = match opening.voice {
            VoiceId::Upper => "upper voice",
            VoiceId::Lower => "lower voice",
        };
        let pitches: Vec<_> = opening.viable.iter().map(|it| it.pitch.to_string()).collect();
        let line = format!("{place}, {voice}: {}", pitches.join(" "));
        output.line(&hanging(&line, "  ", "    "))?;
    }
    match (openings.extent, openings.found.is_empty()) {
        (Extent::All, true) => output.line("  No way is left."),
        (Extent::All, false) => Ok(()),
        (Extent::AtLeast, _) => {
            output.line(&wrapped(&unfinished("There may be more", seconds), "  "))
        }
    }
}

/// Where it comes to an end, and by which rules.
fn closed(dead_end: &DeadEnd) -> String {
    format!("Whatever stands elsewhere, {}.", closed_by(dead_end))
}

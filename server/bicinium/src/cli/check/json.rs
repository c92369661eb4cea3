//! Findings as one JSON array, for other programs. The names of the fields are a promise to them.
//! It must not know how findings were made.

use bicinium_analysis::finding::Place;
use bicinium_analysis::rulebook::RulebookProblem;
use bicinium_analysis::score::VoiceId;
use bicinium_analysis::sheet::RULEBOOK;
use bicinium_analysis::{Level, Located};
use serde::Serialize;

use super::Marking;
use crate::cli::broken::Broken;
use crate::cli::lines::Lines;
use crate::cli::marked::Marked;

/// All findings down to the mildest level that is told.
pub(super) fn report(marking: &Marking, mildest: Level) -> serde_json::Result<String> {
    let in_rulebooks = marking.rulebooks.iter().flat_map(of_rulebook);
    let in_sheets = marking.sheets.iter().flat_map(|sheet| of_sheet(sheet, mildest));
    serde_json::to_string_pretty(&in_rulebooks.chain(in_sheets).collect::<Vec<_>>())
}

fn of_rulebook(rulebook: &Broken) -> Vec<Entry<'_>> {
    let lines = Lines::new(&rulebook.text);
    let entry = |problem| Entry::about_rulebook(rulebook.name(), &lines, problem);
    rulebook.problems.iter().map(entry).collect()
}

fn of_sheet(sheet: &Marked, mildest: Level) -> Vec<Entry<'_>> {
    let lines = Lines::new(&sheet.text);
    let path = sheet.source.name();
    sheet.down_to(mildest).map(|located| Entry::new(path.clone(), &lines, located)).collect()
}

/// A finding.
#[derive(Serialize)]
struct Entry<'a> {
    path: String,
    /// Counted from 1.
    exercise: Option<usize>,
    rule: &'static str,
    level: &'static str,
    message: &'a str,
    voice: Option<&'static str>,
    /// Counted from 1.
    bar: Option<u32>,
    /// Counted from 1; with a fraction between beats.
    beat: Option<Beat>,
    range: Range,
    related: Vec<Other<'a>>,
    /// The reason, empty if none is given.
    accepted: Option<&'a str>,
}

#[derive(Serialize)]
#[serde(untagged)]
enum Beat {
    On(u32),
    After(f64),
}

/// A stretch of text, its end not included.
#[derive(Serialize)]
struct Range {
    start: Position,
    end: Position,
}

#[derive(Serialize)]
struct Position {
    /// Counted from 0.
    line: usize,
    /// In UTF-16 code units, counted from 0.
    character: usize,
}

#[derive(Serialize)]
struct Other<'a> {
    message: &'a str,
    range: Range,
}

impl<'a> Entry<'a> {
    fn about_rulebook(path: String, lines: &Lines<'_>, problem: &'a RulebookProblem) -> Self {
        Entry {
            path,
            exercise: None,
            rule: RULEBOOK,
            level: Level::Notation.name(),
            message: &problem.message,
            voice: None,
            bar: None,
            beat: None,
            range: Range::new(lines, problem.range.clone()),
            related: Vec::new(),
            accepted: None,
        }
    }

    fn new(path: String, lines: &Lines<'_>, located: Located<'a>) -> Self {
        let finding = located.finding;
        let related = finding.related.iter().map(|related| Other {
            message: &related.message,
            range: Range::new(lines, located.block.in_sheet(related.range)),
        });
        let acceptance = finding.accepted.as_ref();
        Entry {
            path,
            exercise: located.block.number,
            rule: finding.rule,
            level: finding.level.name(),
            message: &finding.message,
            voice: finding.voice.map(VoiceId::name),
            bar: finding.place.map(|place| place.bar),
            beat: finding.place.map(beat),
            range: Range::new(lines, located.range()),
            related: related.collect(),
            accepted: acceptance.map(|acceptance| acceptance.reason.as_deref().unwrap_or_default()),
        }
    }
}

fn beat(place: Place) -> Beat {
    if place.behind > 0.0 {
        Beat::After(f64::from(place.beat) + place.behind)
    } else {
        Beat::On(place.beat)
    }
}

impl Range {
    fn new(lines: &Lines<'_>, bytes: std::ops::Range<usize>) -> Self {
        let position = |offset| {
            let place = lines.position(offset);
            Position { line: place.line, character: place.utf16 }
        };
        Range { start: position(bytes.start), end: position(bytes.end) }
    }
}

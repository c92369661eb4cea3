//! Room for more bars: the rows of the last system once more, blank, behind an empty line. Where the
//! cantus is defined and goes on, its notes are written in.

use bicinium_analysis::score::{Event, Sound, VoiceId};
use bicinium_grammar::ast::{Row, VoiceRow};
use bicinium_grammar::{TextRange, TextSize};

use super::rows::VoiceRows;
use super::{Draft, Place, Subject, cantus};
use crate::features::lines::{end_of_line, line_end};

/// The next system.
pub(super) fn next(place: &Place<'_>, rows: &VoiceRows) -> Option<Draft> {
    let (upper, lower) = (rows.of.upper.last()?, rows.of.lower.last()?);
    let rest = rest_of_cantus(place, rows);
    let bars = upper.bars().len().max(lower.bars().len());
    let bars = if rest.is_empty() { bars } else { bars.min(rest.len()) };
    if !place.is_clean() || bars == 0 || !may_go_on(place, bars) {
        return None;
    }
    let text = place.text();
    let written = place.written.rows();
    let first = upper.range().start().min(lower.range().start());
    let last_system: Vec<_> = written.iter().filter(|row| row.range().start() >= first).collect();
    let width = last_system.iter().map(|row| name(row).len()).max()?;
    let line = |row: &&Row| {
        let is_cantus = place.exercise.score.setting.cantus.is_some_and(
            |voice| matches!(row, Row::Voice(row) if rows.of[voice].last() == Some(row)),
        );
        let note = |bar: usize| rest.get(bar).filter(|_| is_cantus).map_or("", String::as_str);
        let bars: String = (0..bars).map(|bar| bar_of(note(bar))).collect();
        format!("{}{:width$} |{bars}", indent(&text, row), name(row))
    };
    let end = last_system.iter().map(|row| usize::from(row.range().end())).max()?;
    let at = TextSize::try_from(end_of_line(&text, end)).ok()?;
    let newline = line_end(&text);
    let lines: Vec<_> = last_system.iter().map(line).collect();
    let insert = format!("{newline}{newline}{}", lines.join(newline));
    let title = format!("Lay out the next system, with {bars} {}", plural(bars));
    Some(Draft { title, subject: Subject::System, edits: vec![(TextRange::empty(at), insert)] })
}

/// Whether the judge finds no fault in it that comes only of its going on: a close is none any more
/// if bars follow.
fn may_go_on(place: &Place<'_>, bars: usize) -> bool {
    let mut score = place.exercise.score.clone();
    let Ok(bars) = u32::try_from(bars) else { return false };
    let (end, bar) = (score.setting.length(), score.setting.bar_length());
    for voice in VoiceId::BOTH {
        score.setting.bars_of[voice] += bars;
        let range = score.lines[voice].head;
        let blank =
            |number| Event { onset: end + bar * number, duration: bar, sound: Sound::Blank, range };
        score.lines[voice].events.extend((0..bars).map(blank));
    }
    score.setting.bars += bars;
    place.account_of(score).brings_no_fault_to(&place.exercise.account())
}

/// The notes of the defined cantus that have no bar yet.
fn rest_of_cantus(place: &Place<'_>, rows: &VoiceRows) -> Vec<String> {
    let setting = &place.exercise.score.setting;
    let (Some(voice), Some(definition)) = (setting.cantus, &setting.definition) else {
        return Vec::new();
    };
    let by = cantus::transposition(place, voice, definition);
    let written = bars_of(rows, voice);
    let rest = definition.notes.iter().skip(written).filter_map(|note| note.transpose(by));
    rest.map(|note| note.to_string()).collect()
}

fn bars_of(rows: &VoiceRows, voice: VoiceId) -> usize {
    rows.of[voice].iter().map(|row: &VoiceRow| row.bars().len()).sum()
}

fn bar_of(note: &str) -> String {
    if note.is_empty() { " |".to_owned() } else { format!(" {note} |") }
}

fn name(row: &Row) -> &'static str {
    match row {
        Row::Voice(row) => row.register().unwrap_or_default(),
        Row::Harmony(_) => "harmony",
    }
}

/// The white space before a row.
fn indent<'t>(text: &'t str, row: &Row) -> &'t str {
    let before = &text[..usize::from(row.range().start())];
    &before[before.trim_end_matches([' ', '\t']).len()..]
}

fn plural(bars: usize) -> &'static str {
    if bars == 1 { "bar" } else { "bars" }
}

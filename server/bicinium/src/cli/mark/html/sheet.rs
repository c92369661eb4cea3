//! Rows of a sheet with the number of each finding below its place, and the findings in words. It must
//! not know what a finding costs.

use std::ops::Range;

use bicinium_coursework::mark::Found;
use maud::{Markup, html};
use unicode_width::UnicodeWidthStr;

use super::prose;
use super::student::Told;
use crate::cli::lines::Lines;
use crate::features::page;

/// A stretch of a sheet, and all that was found in it.
pub(super) fn with_findings<'a>(
    text: &str,
    range: &Range<usize>,
    findings: &[&'a Found],
    told: &mut Told<'a>,
) -> Markup {
    let first = told.findings + 1;
    told.findings += findings.len();
    let numbered: Vec<_> = findings.iter().copied().zip(first..).collect();
    let id = told.prefix.clone();
    html! {
        (rows(text, range, &numbered, &id))
        @if !numbered.is_empty() {
            ol .findings start=(first) {
                @for (found, number) in &numbered { (item(found, *number, told)) }
            }
        }
    }
}

/// The lines of a stretch, each with what was found in it below.
fn rows(text: &str, range: &Range<usize>, findings: &[(&Found, usize)], id: &str) -> Markup {
    let lines = Lines::new(text);
    let written = text.get(range.clone()).unwrap_or_default();
    let last = range.start + written.trim_end().len();
    let numbers = lines.line_at(range.start)..=lines.line_at(last);
    html! {
        @if !written.trim().is_empty() {
            pre tabindex="0" {
                @for number in numbers {
                    (lines.text(number)) "\n"
                    @for row in below(&lines, number, findings) {
                        (row_of_numbers(&row, id)) "\n"
                    }
                }
            }
        }
    }
}

/// A number and the column that it stands at.
type Numbered<'a> = (usize, usize, &'a Found);

/// The numbers below a line, in as many rows as it takes for none to run into another.
fn below<'a>(
    lines: &Lines<'_>,
    line: usize,
    findings: &[(&'a Found, usize)],
) -> Vec<Vec<Numbered<'a>>> {
    let start = lines.range(line).start;
    let mut here: Vec<Numbered<'a>> = findings
        .iter()
        .filter(|(found, _)| lines.line_at(found.range.start) == line)
        .map(|(found, number)| {
            let before = found.range.start.saturating_sub(start);
            let column = lines.text(line).get(..before).map_or(0, UnicodeWidthStr::width);
            (column, *number, *found)
        })
        .collect();
    here.sort_by_key(|(column, number, _)| (*column, *number));
    let mut rows: Vec<Vec<Numbered<'a>>> = Vec::new();
    for one in here {
        let fits = |row: &&mut Vec<Numbered<'a>>| row.last().is_none_or(|last| end(last) < one.0);
        match rows.iter_mut().find(fits) {
            Some(row) => row.push(one),
            None => rows.push(vec![one]),
        }
    }
    rows
}

/// The column behind a number.
fn end((column, number, _): &Numbered<'_>) -> usize {
    column + number.to_string().len()
}

fn row_of_numbers(row: &[Numbered<'_>], id: &str) -> Markup {
    let mut column = 0;
    html! {
        @for one @ (at, number, found) in row {
            (" ".repeat(at.saturating_sub(column)))
            a .{ "number " (class(found)) } href={ "#" (id) "-" (number) }
                aria-label={ "finding " (number) } { (number) }
            ({ column = end(one); "" })
        }
    }
}

fn item<'a>(found: &'a Found, number: usize, told: &mut Told<'a>) -> Markup {
    let why = page::purpose(found.rule).filter(|_| told.rules.insert(found.rule));
    html! {
        li id={ (told.prefix) "-" (number) } .(class(found)) {
            strong { (found.level.0.name()) ": " (found.rule.replace('-', " ")) }
            span .place { (place(found)) }
            p { (prose(&found.message)) }
            @if let Some(reason) = &found.accepted {
                p .licence {
                    @if reason.is_empty() { "A licence is taken without a reason." }
                    @else { "A licence is taken: “" (reason) "”." }
                }
            } @else if let Some(why) = why {
                p .why { "Why it matters: " (prose(why)) }
            }
        }
    }
}

fn class(found: &Found) -> &'static str {
    if found.stands() { found.level.0.name() } else { "accepted" }
}

/// ", bar 3, beat 1, upper voice".
fn place(found: &Found) -> String {
    let bar = found.bar.map(|bar| format!(", bar {bar}"));
    let beat = found.beat.map(|beat| format!(", beat {beat}"));
    let voice = found.voice.map(|voice| format!(", {voice} voice"));
    [bar, beat, voice].into_iter().flatten().collect()
}

//! Lines of a text with signs below the places that are meant. It must not know what is found
//! there.

use std::collections::BTreeSet;
use std::fmt::Write;
use std::ops::Range;

use anstyle::Style;
use unicode_width::UnicodeWidthStr;

use super::lines::Lines;
use super::style::{FAINT, painted};
use super::words::shown;

/// A place below which something is put.
#[derive(Clone, Debug)]
pub(super) struct Mark {
    /// The place, in bytes of the text; of a longer one only the first line is marked.
    range: Range<usize>,
    /// The sign that is repeated below it.
    sign: char,
    style: Style,
    /// What is said beside the signs; may be empty.
    label: String,
}

impl Mark {
    /// The place itself.
    pub(super) fn here(range: Range<usize>, style: Style) -> Self {
        Self { range, sign: '^', style, label: String::new() }
    }

    /// Another place, with what is there.
    pub(super) fn there(range: Range<usize>, style: Style, label: &str) -> Self {
        Self { range, sign: '-', style, label: label.to_owned() }
    }
}

/// The lines that are marked, each once and in order, with their numbers.
pub(super) fn picture(lines: &Lines<'_>, marks: &[Mark]) -> String {
    let marked: BTreeSet<_> = marks.iter().map(|mark| lines.line_at(mark.range.start)).collect();
    rows(lines, &marked, marks)
}

/// All lines of a text with their numbers, and the marks among them.
pub(super) fn whole(lines: &Lines<'_>, marks: &[Mark]) -> String {
    rows(lines, &lines.numbers().collect(), marks)
}

fn rows(lines: &Lines<'_>, which: &BTreeSet<usize>, marks: &[Mark]) -> String {
    let widest = which.last().map_or(1, |line| (line + 1).to_string().len());
    let mut rows = String::new();
    for line in which.iter().copied() {
        push_row(&mut rows, &format!("{:>widest$}", line + 1), &shown(lines.text(line)));
        for mark in marks.iter().filter(|mark| lines.line_at(mark.range.start) == line) {
            let before = blank(lines.before(line, mark.range.start));
            let signs = signs(lines, line, mark);
            push_row(&mut rows, &" ".repeat(widest), &format!("{before}{signs}"));
        }
    }
    rows
}

fn push_row(rows: &mut String, number: &str, text: &str) {
    let gutter = painted(FAINT, &format!("{number} |"));
    let row = format!("  {gutter} {text}");
    // Writing to a string does not fail.
    let _ = writeln!(rows, "{}", row.trim_end());
}

/// As much blank as a text takes up.
fn blank(text: &str) -> String {
    let mut blank = String::new();
    for part in shown(text).split_inclusive('\t') {
        let visible = part.trim_end_matches('\t');
        blank.extend(std::iter::repeat_n(' ', visible.width()));
        blank.push_str(&part[visible.len()..]);
    }
    blank
}

fn signs(lines: &Lines<'_>, line: usize, mark: &Mark) -> String {
    let before = lines.before(line, mark.range.start).len();
    let marked = &lines.before(line, mark.range.end.max(mark.range.start))[before..];
    let count = shown(marked).width().max(1);
    let signs = std::iter::repeat_n(mark.sign, count).collect::<String>();
    let label = shown(&mark.label);
    painted(mark.style, format!("{signs} {label}").trim_end())
}

#[cfg(test)]
mod tests {
    use std::ops::Range;

    use anstyle::Style;

    use super::{Mark, picture, whole};
    use crate::cli::lines::Lines;

    fn here(range: Range<usize>) -> Mark {
        Mark::here(range, Style::new())
    }

    fn drawn(text: &str, marks: &[Mark]) -> String {
        anstream::adapter::strip_str(&picture(&Lines::new(text), marks)).to_string()
    }

    #[test]
    fn signs_stand_below_what_they_mark() {
        let text = "a | C4 |\nb | E4 |\r\n";
        let expected = "  1 | a | C4 |\n    |     -- there\n  2 | b | E4 |\n    |     ^^\n";
        assert_eq!(
            drawn(text, &[here(13..15), Mark::there(4..6, Style::new(), "there")]),
            expected
        );
    }

    #[test]
    fn wide_and_narrow_characters_count_as_wide_as_they_are() {
        let text = "by \"音é\" 𝄫 x";
        let x = text.find('x').unwrap();
        assert_eq!(drawn(text, &[here(x..x + 1)]), format!("  1 | {text}\n    |            ^\n"));
    }

    #[test]
    fn tabs_stand_below_tabs() {
        assert_eq!(drawn("a\tb", &[here(2..3)]), "  1 | a\tb\n    |  \t^\n");
    }

    #[test]
    fn places_that_are_not_there_are_shown_at_the_end() {
        assert_eq!(drawn("ab", &[here(7..9)]), "  1 | ab\n    |   ^\n");
        assert_eq!(drawn("ab\ncd", &[here(1..5)]), "  1 | ab\n    |  ^\n");
    }

    #[test]
    fn numbers_are_as_wide_as_the_last() {
        let text = "x\n".repeat(10);
        let all = anstream::adapter::strip_str(&whole(&Lines::new(&text), &[])).to_string();
        assert!(all.starts_with("   1 | x\n") && all.ends_with("  10 | x\n"), "{all}");
    }
}

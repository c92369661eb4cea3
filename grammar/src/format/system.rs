//! Rows that sound together, set one system after the other. This module must not know how the inside
//! of a bar is set.

use unicode_width::UnicodeWidthStr;

use super::CleanLine;
use super::grid::{self, Cell};
use super::line::{INDENT, tokens, with_comment, word};
use crate::ast::system_numbers;
use crate::syntax::{SyntaxKind, SyntaxNode};

/// The texts of all rows of a block that can be set, by the place of their lines in the block.
pub(super) fn rows(lines: &[SyntaxNode], clean: &[CleanLine]) -> Vec<(usize, String)> {
    let systems = system_numbers(lines);
    let rows: Vec<Row> =
        clean.iter().filter_map(|line| Row::new(line, systems[line.index])).collect();
    let heads = Heads::of(&rows);
    let together = rows.chunk_by(|left, right| left.system == right.system);
    together.flat_map(|rows| set(rows, &heads)).collect()
}

/// A row taken apart.
struct Row<'l> {
    line: &'l CleanLine,
    system: usize,
    /// The first word of the row, and what else stands before the first barline.
    name: String,
    role: String,
    bars: Vec<Vec<Cell>>,
}

impl<'l> Row<'l> {
    fn new(line: &'l CleanLine, system: Option<usize>) -> Option<Self> {
        let head = tokens(&line.node).take_while(|token| token.kind() != SyntaxKind::Barline);
        let mut words = head.filter(|token| !token.kind().is_trivia()).map(|token| word(&token));
        let name = words.next()?;
        let role = words.collect::<Vec<_>>().join(" ");
        let bars = line.node.children().map(|bar| grid::cells(&bar)).collect::<Option<_>>()?;
        Some(Self { line, system: system?, name, role, bars })
    }

    fn bar(&self, index: usize) -> Option<&[Cell]> {
        self.bars.get(index).map(Vec::as_slice)
    }
}

/// The widths of what stands before the first barlines of a block.
struct Heads {
    name: usize,
    whole: usize,
}

/// A head wider than this does not push the barlines of all other rows to the right.
const WIDEST: usize = 60;

impl Heads {
    fn of(rows: &[Row]) -> Self {
        let with_role = rows.iter().filter(|row| !row.role.is_empty());
        let name = with_role.map(|row| width(&row.name)).max().unwrap_or(0);
        let heads = Self { name, whole: 0 };
        let widths = rows.iter().map(|row| width(&heads.text(row)));
        let whole = widths.filter(|width| *width <= WIDEST).max().unwrap_or(0);
        Self { name, whole }
    }

    /// What stands before the first barline of a row.
    fn text(&self, row: &Row) -> String {
        let head = match row.role.as_str() {
            "" => row.name.clone(),
            role => format!("{} {role}", padded(&row.name, self.name)),
        };
        padded(&head, self.whole)
    }
}

/// The columns that `text` takes where all characters are set equally wide.
fn width(text: &str) -> usize {
    UnicodeWidthStr::width(text)
}

fn padded(text: &str, columns: usize) -> String {
    format!("{text}{}", " ".repeat(columns.saturating_sub(width(text))))
}

/// The texts of the rows of one system.
fn set(rows: &[Row], heads: &Heads) -> Vec<(usize, String)> {
    let mut texts: Vec<String> =
        rows.iter().map(|row| format!("{INDENT}{} |", heads.text(row))).collect();
    let bars = rows.iter().map(|row| row.bars.len()).max().unwrap_or(0);
    for bar in 0..bars {
        let cells: Vec<_> = rows.iter().map(|row| row.bar(bar).unwrap_or_default()).collect();
        let present = rows.iter().zip(&mut texts).zip(grid::set(&cells));
        for ((_, text), set) in present.filter(|((row, _), _)| row.bar(bar).is_some()) {
            text.extend([" ", &set, " |"]);
        }
    }
    let lines = rows.iter().zip(texts);
    lines.map(|(row, text)| (row.line.index, with_comment(&text, &row.line.node))).collect()
}

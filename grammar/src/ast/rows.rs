//! Rows: which voice, what for, and the bars. A row must not know of any other row.

use rowan::{GreenNode, GreenNodeData, TextRange, TextSize};

use super::bars::{Bar, bars};
use super::read;
use super::systems::numbers;
use crate::syntax::{SyntaxKind, SyntaxNode, SyntaxToken};
use crate::words::{REGISTERS, ROLES, find, misspelling_of};

/// A row of an exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Row {
    /// The row of a voice.
    Voice(VoiceRow),
    /// A row of numerals.
    Harmony(HarmonyRow),
}

/// What a row is written as, wherever it stands. A row that an edit leaves alone keeps its own.
#[derive(Clone, Debug)]
pub struct RowText(GreenNode);

/// What a voice is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Role {
    /// It is given.
    Cantus,
    /// It is to be written.
    Counter,
}

/// A row of a cantus definition.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LineRow(SyntaxNode);

/// A row of one voice in an exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct VoiceRow(SyntaxNode);

/// A row of numerals in an exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HarmonyRow(SyntaxNode);

impl Row {
    /// The row, without white space and comment.
    pub fn range(&self) -> TextRange {
        match self {
            Self::Voice(row) => row.range(),
            Self::Harmony(row) => row.range(),
        }
    }

    /// The bars of the row.
    pub fn bars(&self) -> Vec<Bar> {
        match self {
            Self::Voice(row) => row.bars(),
            Self::Harmony(row) => row.bars(),
        }
    }

    /// Whether a blank line stands between the row before and this one. A line with a comment is not
    /// blank.
    pub fn follows_a_gap(&self) -> bool {
        let before = std::iter::successors(self.syntax().prev_sibling(), SyntaxNode::prev_sibling);
        before.take_while(|line| !is_row(line)).any(|line| is_gap(&line))
    }

    /// What the row is written as.
    pub fn text(&self) -> RowText {
        RowText(self.syntax().green().into_owned())
    }

    /// Where the line of the row begins.
    pub fn start(&self) -> TextSize {
        self.syntax().text_range().start()
    }

    fn syntax(&self) -> &SyntaxNode {
        match self {
            Self::Voice(row) => &row.0,
            Self::Harmony(row) => &row.0,
        }
    }
}

impl RowText {
    /// Whether it is the very same one, untouched; two that only read alike need not be.
    pub fn is(&self, other: &Self) -> bool {
        let (one, other): (&GreenNodeData, &GreenNodeData) = (&self.0, &other.0);
        std::ptr::eq(one, other)
    }

    /// The row by itself: its places are counted from the beginning of its line.
    pub fn row(&self) -> Option<Row> {
        row(SyntaxNode::new_root(self.0.clone()))
    }
}

/// What every row has, whatever stands in its bars.
macro_rules! rows {
    ($($row:ident),*) => { $(
        impl $row {
            /// The row, without white space and comment.
            pub fn range(&self) -> TextRange {
                read::trimmed(&self.0)
            }

            /// What stands before the first barline.
            pub fn head_range(&self) -> TextRange {
                head_range(&self.0)
            }

            /// The bars of the row.
            pub fn bars(&self) -> Vec<Bar> {
                bars(&self.0)
            }
        }
    )* };
}

rows!(LineRow, HarmonyRow, VoiceRow);

impl VoiceRow {
    /// The register the row names: `soprano`, `mezzo`, `alto`, `tenor`, `baritone` or `bass`. A
    /// misspelt name, which is reported, is read as the one it is nearest to.
    pub fn register(&self) -> Option<&'static str> {
        meant(&self.register_token()?, REGISTERS)
    }

    /// Where the name of the register stands.
    pub fn register_range(&self) -> Option<TextRange> {
        self.register_token().map(|token| token.text_range())
    }

    /// What the voice is for, if this row says so.
    pub fn role(&self) -> Option<Role> {
        match meant(&self.role_token()?, ROLES)? {
            "cantus" => Some(Role::Cantus),
            _ => Some(Role::Counter),
        }
    }

    /// Where the role stands.
    pub fn role_range(&self) -> Option<TextRange> {
        self.role_token().map(|token| token.text_range())
    }

    /// The name of the cantus definition that the row follows.
    pub fn cantus_name(&self) -> Option<String> {
        self.name_token().map(|token| token.text().to_owned())
    }

    /// Where the name of the cantus stands.
    pub fn cantus_name_range(&self) -> Option<TextRange> {
        self.name_token().map(|token| token.text_range())
    }

    fn register_token(&self) -> Option<SyntaxToken> {
        words(&self.0).next()
    }

    fn role_token(&self) -> Option<SyntaxToken> {
        words(&self.0).nth(1)
    }

    fn name_token(&self) -> Option<SyntaxToken> {
        head(&self.0).find(|token| token.kind() == SyntaxKind::Name)
    }
}

pub(super) fn line_rows(block: &SyntaxNode) -> Vec<LineRow> {
    read::lines(block, SyntaxKind::LineRow).map(LineRow).collect()
}

pub(super) fn rows(block: &SyntaxNode) -> Vec<Row> {
    block.children().filter_map(row).collect()
}

pub(super) fn systems(block: &SyntaxNode) -> Vec<Vec<Row>> {
    let lines: Vec<_> = block.children().collect();
    let numbers = numbers(&lines);
    let rows: Vec<_> =
        lines.into_iter().zip(numbers).filter(|(_, number)| number.is_some()).collect();
    let together = rows.chunk_by(|one, next| one.1 == next.1);
    together.map(|rows| rows.iter().filter_map(|(line, _)| row(line.clone())).collect()).collect()
}

fn row(line: SyntaxNode) -> Option<Row> {
    match line.kind() {
        SyntaxKind::VoiceRow => Some(Row::Voice(VoiceRow(line))),
        SyntaxKind::HarmonyRow => Some(Row::Harmony(HarmonyRow(line))),
        _ => None,
    }
}

fn is_row(line: &SyntaxNode) -> bool {
    matches!(line.kind(), SyntaxKind::VoiceRow | SyntaxKind::HarmonyRow)
}

/// Whether a line is blank, without so much as a comment.
pub(super) fn is_gap(line: &SyntaxNode) -> bool {
    let mut tokens = read::tokens(line);
    line.kind() == SyntaxKind::BlankLine && !tokens.any(|token| token.kind() == SyntaxKind::Comment)
}

fn words(row: &SyntaxNode) -> impl Iterator<Item = SyntaxToken> {
    let word = |kind| matches!(kind, SyntaxKind::Keyword | SyntaxKind::Misspelt);
    head(row).filter(move |token| word(token.kind()))
}

/// What stands before the first barline.
fn head(row: &SyntaxNode) -> impl Iterator<Item = SyntaxToken> {
    read::tokens(row).take_while(|token| token.kind() != SyntaxKind::Barline)
}

fn meant(token: &SyntaxToken, table: &[&'static str]) -> Option<&'static str> {
    find(token.text(), table).or_else(|| misspelling_of(token.text(), table))
}

fn head_range(row: &SyntaxNode) -> TextRange {
    let ranges =
        head(row).filter(|token| !token.kind().is_trivia()).map(|token| token.text_range());
    let start = TextRange::empty(read::trimmed(row).start());
    ranges.reduce(TextRange::cover).unwrap_or(start)
}

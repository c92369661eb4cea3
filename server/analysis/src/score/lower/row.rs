//! The rows of an exercise, read one by one in places of their own, so that a row which an edit leaves
//! alone need not be read again. A row must not know of any other.

use std::sync::Arc;

use bicinium_grammar::ast::{self, RowText};
use bicinium_grammar::{TextRange, TextSize};
use bicinium_theory::Register;

/// What has been read of the rows of an exercise, to be taken up again after an edit.
#[derive(Debug, Default)]
pub struct Readings(Vec<(RowText, Arc<Reading>)>);

/// A row where it stands.
#[derive(Debug)]
pub(super) struct Row {
    /// Where its line begins.
    start: TextSize,
    /// Whether a blank line stands before it.
    pub follows_a_gap: bool,
    reading: Arc<Reading>,
}

/// A bar where it stands.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bar<'r> {
    /// Where the line of its row begins.
    pub start: TextSize,
    bar: &'r ast::Bar,
}

/// What a row says, in places counted from the beginning of its line.
#[derive(Debug)]
struct Reading {
    /// What stands before the bars; `None` in a row of numerals.
    head: Option<Head>,
    range: TextRange,
    bars: Vec<ast::Bar>,
}

/// What stands before the bars of a voice.
#[derive(Debug)]
pub(super) struct Head {
    /// The register, if there is one of that name.
    pub register: Option<Register>,
    register_range: Option<TextRange>,
    /// What the voice is for.
    pub role: Option<ast::Role>,
    role_range: Option<TextRange>,
    cantus_name: Option<(String, TextRange)>,
}

impl Readings {
    /// Reads the rows of an exercise; those at both ends that are still the same are not read again.
    pub(super) fn follow(&mut self, rows: &[ast::Row]) -> Vec<Row> {
        let texts: Vec<_> = rows.iter().map(ast::Row::text).collect();
        let is_kept = |(known, text): &(&(RowText, _), &RowText)| known.0.is(text);
        let head = self.0.iter().zip(&texts).take_while(is_kept).count();
        let rest = self.0[head..].iter().rev().zip(texts[head..].iter().rev());
        let tail = rest.take_while(is_kept).count();
        let new = texts[head..texts.len() - tail].iter();
        let new: Vec<_> = new.map(|text| (text.clone(), Arc::new(Reading::of(text)))).collect();
        self.0.splice(head..self.0.len() - tail, new);
        let readings = self.0.iter().map(|known| &known.1);
        rows.iter().zip(readings).map(|(row, reading)| Row::new(row, reading)).collect()
    }
}

impl Reading {
    fn of(text: &RowText) -> Self {
        let row = text.row();
        let (range, bars) = row.as_ref().map(|row| (row.range(), row.bars())).unwrap_or_default();
        let head = match &row {
            Some(ast::Row::Voice(row)) => Some(Head::of(row)),
            _ => None,
        };
        Self { head, range, bars }
    }
}

impl Head {
    fn of(row: &ast::VoiceRow) -> Self {
        Self {
            register: row.register().and_then(|name| name.parse().ok()),
            register_range: row.register_range(),
            role: row.role(),
            role_range: row.role_range(),
            cantus_name: row.cantus_name().zip(row.cantus_name_range()),
        }
    }
}

impl Row {
    fn new(row: &ast::Row, reading: &Arc<Reading>) -> Self {
        let reading = reading.clone();
        Self { start: row.start(), follows_a_gap: row.follows_a_gap(), reading }
    }

    /// What stands before the bars; `None` in a row of numerals.
    pub(super) fn head(&self) -> Option<&Head> {
        self.reading.head.as_ref()
    }

    /// The row, without white space and comment.
    pub(super) fn range(&self) -> TextRange {
        self.reading.range + self.start
    }

    /// Where the register is named; the whole row if it is not.
    pub(super) fn register_range(&self) -> TextRange {
        let named = self.head().and_then(|head| head.register_range);
        named.map_or_else(|| self.range(), |range| range + self.start)
    }

    /// Where it is said what the voice is for; the whole row if it is not.
    pub(super) fn role_range(&self) -> TextRange {
        let named = self.head().and_then(|head| head.role_range);
        named.map_or_else(|| self.range(), |range| range + self.start)
    }

    /// The name of the cantus that the row follows, and where it stands.
    pub(super) fn cantus_name(&self) -> Option<(String, TextRange)> {
        let (name, range) = self.head()?.cantus_name.clone()?;
        Some((name, range + self.start))
    }

    /// The bars of the row.
    pub(super) fn bars(&self) -> impl ExactSizeIterator<Item = Bar<'_>> {
        self.reading.bars.iter().map(|bar| Bar { start: self.start, bar })
    }
}

impl<'r> Bar<'r> {
    /// The shares of the bar, in places counted from the beginning of its line.
    pub(super) fn items(self) -> &'r [ast::Item] {
        self.bar.items()
    }

    /// All that stands between the barlines.
    pub(super) fn range(self) -> TextRange {
        self.bar.range() + self.start
    }
}

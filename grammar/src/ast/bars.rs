//! Bars and their items, as plain values. They must not know how long a bar is.

use rowan::{GreenNodeData, NodeOrToken, TextRange, TextSize};

use super::read::{Element, kind_and_length};
use crate::numeral;
use crate::spelling::Spelling;
use crate::syntax::{SyntaxKind, SyntaxNode};

/// What stands between two barlines. The items of a bar share its length equally.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bar {
    items: Vec<Item>,
    range: TextRange,
    written: TextRange,
}

/// One share of a bar or of a group.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Item {
    /// What stands there.
    pub kind: ItemKind,
    /// Where it stands.
    pub range: TextRange,
}

/// What a share of a bar is filled with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ItemKind {
    /// A note; only in rows of voices and of a cantus.
    Note(NoteItem),
    /// A Roman numeral in the form `vii°6`; only in harmony rows.
    Numeral(String),
    /// `-`: what was before goes on.
    Hold,
    /// `rest`; only in rows of voices and of a cantus.
    Rest,
    /// `?`: not chosen yet.
    Hole,
    /// Several items that divide one share; never empty, and at most 8 deep.
    Group(Vec<Item>),
    /// Something that could not be read, for which a problem is reported.
    Broken,
}

/// A note as it is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct NoteItem {
    /// `A` to `G`.
    pub letter: char,
    /// Semitones by which the accidental raises the letter, -2 to 2.
    pub accidental: i8,
    /// 0 to 9; `None` if it is missing, which is reported.
    pub octave: Option<i8>,
    /// Where the note stands.
    pub range: TextRange,
}

impl Bar {
    fn new(node: &GreenNodeData, start: TextSize) -> Self {
        let (items, written) = contents(node, start);
        Self { items, range: TextRange::at(start, node.text_len()), written }
    }

    /// The shares of the bar; none if the bar is blank.
    pub fn items(&self) -> &[Item] {
        &self.items
    }

    /// All that stands between the barlines, white space included.
    pub fn range(&self) -> TextRange {
        self.range
    }

    /// What is written in the bar, without white space around it; empty if the bar is blank.
    pub fn written_range(&self) -> TextRange {
        self.written
    }

    /// Whether nothing at all is written in the bar.
    pub fn is_blank(&self) -> bool {
        self.written_range().is_empty()
    }
}

pub(super) fn bars(row: &SyntaxNode) -> Vec<Bar> {
    let bar = |(element, range): (Element<'_>, TextRange)| {
        let (kind, _) = kind_and_length(element);
        let node = element.into_node().filter(|_| kind == SyntaxKind::Bar)?;
        Some(Bar::new(node, range.start()))
    };
    elements(&row.green(), row.text_range().start()).filter_map(bar).collect()
}

/// What stands in a node that begins at `start`, each with its place.
fn elements(
    node: &GreenNodeData,
    start: TextSize,
) -> impl Iterator<Item = (Element<'_>, TextRange)> {
    node.children().scan(start, |end, element| {
        let range = TextRange::at(*end, kind_and_length(element).1);
        *end = range.end();
        Some((element, range))
    })
}

/// The items of a node, and its range without white space around it.
fn contents(node: &GreenNodeData, start: TextSize) -> (Vec<Item>, TextRange) {
    let mut items = Vec::new();
    let mut written: Option<TextRange> = None;
    for (element, range) in elements(node, start) {
        let (kind, _) = kind_and_length(element);
        if !kind.is_trivia() {
            written = Some(written.map_or(range, |written| written.cover(range)));
        }
        items.extend(match element {
            NodeOrToken::Node(node) => Some(group(node, range.start())),
            NodeOrToken::Token(token) => item(kind, token.text(), range),
        });
    }
    (items, written.unwrap_or(TextRange::empty(start)))
}

fn group(node: &GreenNodeData, start: TextSize) -> Item {
    let (items, range) = contents(node, start);
    let kind = if items.is_empty() { ItemKind::Broken } else { ItemKind::Group(items) };
    Item { kind, range }
}

fn item(kind: SyntaxKind, text: &str, range: TextRange) -> Option<Item> {
    let kind = match kind {
        SyntaxKind::Pitch | SyntaxKind::PitchClass => note(text, range),
        SyntaxKind::Numeral => ItemKind::Numeral(numeral::normal(text)),
        SyntaxKind::Hold => ItemKind::Hold,
        SyntaxKind::Rest => ItemKind::Rest,
        SyntaxKind::Hole => ItemKind::Hole,
        SyntaxKind::Broken => ItemKind::Broken,
        _ => return None,
    };
    Some(Item { kind, range })
}

fn note(text: &str, range: TextRange) -> ItemKind {
    Spelling::read_pitch(text).map_or(ItemKind::Broken, |(spelling, octave)| {
        let Spelling { letter, accidental } = spelling;
        ItemKind::Note(NoteItem { letter, accidental, octave, range })
    })
}

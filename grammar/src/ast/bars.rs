//! Bars and their items, as plain values. They must not know how long a bar is.

use rowan::{NodeOrToken, SyntaxElement, TextRange};

use super::read;
use crate::numeral;
use crate::spelling::Spelling;
use crate::syntax::{Bicinium, SyntaxKind, SyntaxNode, SyntaxToken};

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
    fn new(node: &SyntaxNode) -> Self {
        Self { items: items(node), range: node.text_range(), written: read::trimmed(node) }
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
    let bars = row.children().filter(|node| node.kind() == SyntaxKind::Bar);
    bars.map(|bar| Bar::new(&bar)).collect()
}

fn items(node: &SyntaxNode) -> Vec<Item> {
    node.children_with_tokens().filter_map(item).collect()
}

fn item(element: SyntaxElement<Bicinium>) -> Option<Item> {
    match element {
        NodeOrToken::Node(group) => Some(self::group(&group)),
        NodeOrToken::Token(token) => Some(Item { kind: kind(&token)?, range: token.text_range() }),
    }
}

fn group(node: &SyntaxNode) -> Item {
    let items = items(node);
    let kind = if items.is_empty() { ItemKind::Broken } else { ItemKind::Group(items) };
    Item { kind, range: read::trimmed(node) }
}

fn kind(token: &SyntaxToken) -> Option<ItemKind> {
    match token.kind() {
        SyntaxKind::Pitch | SyntaxKind::PitchClass => Some(note(token)),
        SyntaxKind::Numeral => Some(ItemKind::Numeral(numeral::normal(token.text()))),
        SyntaxKind::Hold => Some(ItemKind::Hold),
        SyntaxKind::Rest => Some(ItemKind::Rest),
        SyntaxKind::Hole => Some(ItemKind::Hole),
        SyntaxKind::Broken => Some(ItemKind::Broken),
        _ => None,
    }
}

fn note(token: &SyntaxToken) -> ItemKind {
    let range = token.text_range();
    Spelling::read_pitch(token.text()).map_or(ItemKind::Broken, |(spelling, octave)| {
        let Spelling { letter, accidental } = spelling;
        ItemKind::Note(NoteItem { letter, accidental, octave, range })
    })
}

//! One block of a sheet as a tree with its problems. A block must not know where in the sheet it
//! stands: all its ranges count from its own start.

use std::ops::Range;

use rowan::{
    GreenNode, GreenNodeData, GreenTokenData, NodeCache, NodeOrToken, TextRange, TextSize,
};

use crate::ast::Block;
use crate::lines::{end_of, opener};
use crate::parser::{self, Lines};
use crate::problem::Problem;
use crate::syntax::{SyntaxKind, SyntaxNode};

/// What a block is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum BlockKind {
    /// What stands before the first block that is opened by a word; possibly nothing.
    Preamble,
    /// The definition of a cantus.
    Cantus,
    /// An exercise.
    Exercise,
}

/// One block, parsed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BlockTree {
    /// What the block is.
    pub kind: BlockKind,
    /// The tree; printed, it is the text of the block byte for byte.
    pub green: GreenNode,
    /// What could not be read, in the order of the text.
    pub problems: Vec<Problem>,
}

impl BlockTree {
    /// Parses the text of one block. Only the first line is looked at to see what block it is; a
    /// text of 4 GiB or more is beyond the ranges that a tree can hold.
    pub fn parse(text: &str) -> Self {
        Self::parse_knowing(text, &mut NodeCache::default())
    }

    /// The same, sharing what is known of other trees.
    pub(crate) fn parse_knowing(text: &str, known: &mut NodeCache) -> Self {
        let kind = BlockKind::of(text);
        let (green, problems) = parser::parse(kind, text, known);
        Self { kind, green, problems }
    }

    /// Parses the text that a block has now; lines that are the same as before at both ends keep their
    /// part of the tree. The result is the same as that of [`parse`](Self::parse).
    pub(crate) fn parse_again(&self, text: &str) -> Self {
        let kind = BlockKind::of(text);
        if kind != self.kind {
            return Self::parse(text);
        }
        let (green, problems) = parser::parse_again(self, text);
        Self { kind, green, problems }
    }

    /// What an edit within one line makes of the block, parsed; `None` if the edit has to do with other
    /// lines, or might make another block of them. The result is the same as that of
    /// [`parse`](Self::parse).
    pub(crate) fn edit_line(&self, range: &Range<usize>, insert: &str) -> Option<Self> {
        let (number, start, line) = self.line_at(range.start).filter(|known| known.0 > 0)?;
        let mut text = String::with_capacity(usize::from(line.text_len()) + insert.len());
        push_text(line, &mut text);
        let end = start + text.len();
        let edited = range.start - start..range.end.checked_sub(start)?;
        let stays_inside = edited.start <= edited.end
            && edited.end <= text.len() - end_of(&text).len()
            && !insert.contains(['\n', '\r'])
            && text.is_char_boundary(edited.start)
            && text.is_char_boundary(edited.end);
        if !stays_inside || text[edited.clone()] == *insert {
            return None;
        }
        text.replace_range(edited, insert);
        // Where nothing is left of a line but its end, that may belong to the line before.
        if opener(&text).is_some() || text.len() == end_of(&text).len() {
            return None;
        }
        let gone = Lines { at: number..number + 1, bytes: start..end };
        let (green, problems) = parser::parse_lines(self, &gone, &text);
        Some(Self { kind: self.kind, green, problems })
    }

    /// The line that a byte of the block stands in: its number, where it begins, and its part of the
    /// tree.
    fn line_at(&self, offset: usize) -> Option<(usize, usize, &GreenNodeData)> {
        let mut start = 0;
        for (number, child) in self.green.children().enumerate() {
            let NodeOrToken::Node(line) = child else { return None };
            let end = start + usize::from(line.text_len());
            let is_at_the_end = offset == usize::from(self.text_len()) && !has_end(child);
            if offset < end || is_at_the_end {
                return Some((number, start, line));
            }
            start = end;
        }
        None
    }

    /// How many lines the block ends; a line ends with LF, CR or both.
    pub fn line_ends(&self) -> usize {
        let lines = self.green.children();
        let count = lines.len();
        count - usize::from(lines.last().is_some_and(|last| !has_end(last)))
    }

    /// The word of the notation that stands at `offset`, counted from the block's start, and its
    /// place; a misspelt word is none.
    pub fn keyword_at(&self, offset: TextSize) -> Option<(String, TextRange)> {
        if offset > self.text_len() {
            return None;
        }
        let mut tokens = self.syntax().token_at_offset(offset);
        let is_word =
            |kind| matches!(kind, SyntaxKind::Keyword | SyntaxKind::Mode | SyntaxKind::Rest);
        let token = tokens.find(|token| is_word(token.kind()))?;
        Some((token.text().to_ascii_lowercase(), token.text_range()))
    }

    /// The `-` that stands at `offset`, counted from the block's start, and the voice row it is in.
    pub fn hold_at(&self, offset: TextSize) -> Option<(TextRange, TextRange)> {
        if offset > self.text_len() {
            return None;
        }
        let mut tokens = self.syntax().token_at_offset(offset);
        let token = tokens.find(|token| token.kind() == SyntaxKind::Hold)?;
        let row = token.parent_ancestors().find(|node| node.kind() == SyntaxKind::VoiceRow)?;
        Some((token.text_range(), row.text_range()))
    }

    /// The length of the block in bytes.
    pub fn text_len(&self) -> TextSize {
        self.green.text_len()
    }

    /// A cursor at the root of the tree, made anew by every call.
    pub fn syntax(&self) -> SyntaxNode {
        SyntaxNode::new_root(self.green.clone())
    }

    /// The typed view of the block, made anew by every call.
    pub fn ast(&self) -> Block {
        Block::new(self.kind, self.syntax())
    }

    /// The text of the block.
    pub fn text(&self) -> String {
        let mut text = String::with_capacity(usize::from(self.text_len()));
        push_text(&self.green, &mut text);
        text
    }
}

fn push_text(node: &GreenNodeData, text: &mut String) {
    for child in node.children() {
        match child {
            NodeOrToken::Node(node) => push_text(node, text),
            NodeOrToken::Token(token) => text.push_str(token.text()),
        }
    }
}

/// Whether a part of the tree ends a line.
fn has_end(element: NodeOrToken<&GreenNodeData, &GreenTokenData>) -> bool {
    match element {
        NodeOrToken::Node(node) => node.children().last().is_some_and(has_end),
        NodeOrToken::Token(token) => !end_of(token.text()).is_empty(),
    }
}

impl BlockKind {
    fn of(text: &str) -> Self {
        match opener(text) {
            Some("cantus") => Self::Cantus,
            Some(_) => Self::Exercise,
            None => Self::Preamble,
        }
    }
}

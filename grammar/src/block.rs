//! One block of a sheet as a tree with its problems. A block must not know where in the sheet it
//! stands: all its ranges count from its own start.

use rowan::{GreenNode, GreenNodeData, NodeOrToken, TextRange, TextSize};

use crate::ast::Block;
use crate::lines::opener;
use crate::parser;
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
        let kind = BlockKind::of(text);
        let (green, problems) = parser::parse(kind, text);
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

impl BlockKind {
    fn of(text: &str) -> Self {
        match opener(text) {
            Some("cantus") => Self::Cantus,
            Some(_) => Self::Exercise,
            None => Self::Preamble,
        }
    }
}

//! Small readings of nodes that the whole typed view shares. This module must not know what any
//! line means.

use rowan::{NodeOrToken, SyntaxElement, TextRange};

use crate::syntax::{Bicinium, SyntaxKind, SyntaxNode, SyntaxToken};

/// The children of `node` that are tokens.
pub(super) fn tokens(node: &SyntaxNode) -> impl Iterator<Item = SyntaxToken> {
    node.children_with_tokens().filter_map(NodeOrToken::into_token)
}

/// The first token of the given kind that stands directly in `node`.
pub(super) fn token(node: &SyntaxNode, kind: SyntaxKind) -> Option<SyntaxToken> {
    tokens(node).find(|token| token.kind() == kind)
}

/// Its text.
pub(super) fn token_text(node: &SyntaxNode, kind: SyntaxKind) -> Option<String> {
    token(node, kind).map(|token| token.text().to_owned())
}

/// Its place.
pub(super) fn token_range(node: &SyntaxNode, kind: SyntaxKind) -> Option<TextRange> {
    token(node, kind).map(|token| token.text_range())
}

/// The text between the quotation marks of `node`.
pub(super) fn quoted(node: &SyntaxNode) -> Option<String> {
    let text = token_text(node, SyntaxKind::Text)?;
    Some(text.trim_end().trim_matches(['"', '“', '”', '„', '«', '»']).to_owned())
}

/// The range of `node` without white space, comments and the end of the line around it; an empty
/// range where nothing else stands in it.
pub(super) fn trimmed(node: &SyntaxNode) -> TextRange {
    let written = |element: &SyntaxElement<Bicinium>| !element.kind().is_trivia();
    let range = node.text_range();
    let mut children = node.children_with_tokens().filter(written);
    let Some(first) = children.next() else { return TextRange::empty(range.start()) };
    let last = children.last().unwrap_or_else(|| first.clone());
    TextRange::new(first.text_range().start(), last.text_range().end())
}

/// The first line of the given kind in `block`.
pub(super) fn first_line(block: &SyntaxNode, kind: SyntaxKind) -> Option<SyntaxNode> {
    block.children().find(|line| line.kind() == kind)
}

/// The place of the first line of `block`.
pub(super) fn head_range(block: &SyntaxNode) -> TextRange {
    block.first_child().map_or_else(|| block.text_range(), |line| trimmed(&line))
}

//! Small readings of nodes that the whole typed view shares. This module must not know what any
//! line means.

use rowan::{GreenNodeData, GreenTokenData, Language, NodeOrToken, TextRange, TextSize};

use crate::syntax::{Bicinium, SyntaxKind, SyntaxNode, SyntaxToken};

/// A part of the tree without a cursor. Where there are many, they are read without.
pub(super) type Element<'t> = NodeOrToken<&'t GreenNodeData, &'t GreenTokenData>;

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
    let (range, green) = (node.text_range(), node.green());
    let before: TextSize = green.children().map_while(blank).sum();
    if before == range.len() {
        return TextRange::empty(range.start());
    }
    let behind: TextSize = green.children().rev().map_while(blank).sum();
    TextRange::new(range.start() + before, range.end() - behind)
}

/// The length of a part of the tree that is white space, a comment or the end of a line.
fn blank(element: Element<'_>) -> Option<TextSize> {
    let (kind, length) = kind_and_length(element);
    kind.is_trivia().then_some(length)
}

/// What a part of the tree is, and its length.
pub(super) fn kind_and_length(element: Element<'_>) -> (SyntaxKind, TextSize) {
    let (kind, length) = match element {
        NodeOrToken::Node(node) => (node.kind(), node.text_len()),
        NodeOrToken::Token(token) => (token.kind(), token.text_len()),
    };
    (Bicinium::kind_from_raw(kind), length)
}

/// The lines of the given kind in `block`. There is no cursor where there are none.
pub(super) fn lines(block: &SyntaxNode, kind: SyntaxKind) -> impl Iterator<Item = SyntaxNode> {
    let is_there = block.green().children().any(|line| kind_and_length(line).0 == kind);
    let lines = is_there.then(|| block.children()).into_iter().flatten();
    lines.filter(move |line| line.kind() == kind)
}

/// The first line of the given kind in `block`.
pub(super) fn first_line(block: &SyntaxNode, kind: SyntaxKind) -> Option<SyntaxNode> {
    lines(block, kind).next()
}

/// The place of the first line of `block`.
pub(super) fn head_range(block: &SyntaxNode) -> TextRange {
    block.first_child().map_or_else(|| block.text_range(), |line| trimmed(&line))
}

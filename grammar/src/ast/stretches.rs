//! Stretches of text that belong together, whatever they say. They must not know what a line means.

use rowan::{TextRange, TextSize};

use super::read;
use crate::syntax::{SyntaxKind, SyntaxNode, SyntaxToken};

/// From the first word or sign of a block to the last, comments left aside.
pub(super) fn written(block: &SyntaxNode) -> TextRange {
    let lines = block.children().filter(|line| line.kind() != SyntaxKind::BlankLine);
    let written = lines.map(|line| read::trimmed(&line)).filter(|range| !range.is_empty());
    let nothing = TextRange::empty(block.text_range().start());
    written.reduce(TextRange::cover).unwrap_or(nothing)
}

/// Comments on lines of their own, those on neighbouring lines together.
pub(super) fn comments(block: &SyntaxNode) -> Vec<TextRange> {
    let lines: Vec<_> = block.children().map(|line| comment(&line)).collect();
    let runs = lines.chunk_by(|one, next| one.is_some() == next.is_some());
    runs.filter_map(|run| run.iter().copied().flatten().reduce(TextRange::cover)).collect()
}

/// The comment of a line on which nothing else stands.
fn comment(line: &SyntaxNode) -> Option<TextRange> {
    let is_alone = line.kind() == SyntaxKind::BlankLine;
    let comment = read::token(line, SyntaxKind::Comment).filter(|_| is_alone)?;
    Some(comment.text_range())
}

/// What lies around a byte, from a single word or sign outwards to the line.
pub(super) fn around(block: &SyntaxNode, offset: TextSize) -> Vec<TextRange> {
    if !block.text_range().contains_inclusive(offset) {
        return Vec::new();
    }
    let tokens: Vec<_> = block.token_at_offset(offset).collect();
    let word = tokens.iter().find(|token| is_written(token)).or(tokens.first());
    let Some(word) = word else { return Vec::new() };
    let own = is_written(word).then(|| word.text_range());
    let nodes = word.parent_ancestors().take_while(|node| node.kind() != SyntaxKind::Block);
    let ranges = own.into_iter().chain(nodes.map(|node| read::trimmed(&node)));
    let mut around: Vec<TextRange> = Vec::new();
    for range in ranges.filter(|range| range.contains_inclusive(offset) && !range.is_empty()) {
        if around.last().is_none_or(|last| range.contains_range(*last) && range != *last) {
            around.push(range);
        }
    }
    around
}

fn is_written(token: &SyntaxToken) -> bool {
    token.kind() == SyntaxKind::Comment || !token.kind().is_trivia()
}

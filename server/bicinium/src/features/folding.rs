//! What can be folded away: blocks, the systems of an exercise, comments of several lines. It must not
//! know what is folded in the end.

use bicinium_analysis::sheet::Judged;
use bicinium_grammar::{TextRange, ast};

/// A stretch that can be folded away.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fold {
    /// The stretch, counted from the start of its block; it may lie on one line.
    pub range: TextRange,
    /// What it is.
    pub kind: FoldKind,
}

/// What can be folded away.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FoldKind {
    /// An exercise or a definition.
    Block,
    /// One of several systems.
    System,
    /// A comment.
    Comment,
}

/// Everything in a block that can be folded.
pub fn folds(block: &Judged) -> Vec<Fold> {
    let tree = block.tree.ast();
    let whole = match tree {
        ast::Block::Preamble(_) => None,
        ast::Block::Cantus(_) | ast::Block::Exercise(_) => Some(tree.written_range()),
    };
    let systems = tree.systems();
    let systems = systems.iter().filter(|_| systems.len() > 1).filter_map(|rows| extent(rows));
    let fold = |kind| move |range| Fold { range, kind };
    let whole = whole.into_iter().map(fold(FoldKind::Block));
    let comments = tree.comments().into_iter().map(fold(FoldKind::Comment));
    whole.chain(systems.map(fold(FoldKind::System))).chain(comments).collect()
}

/// From the first row to the last.
pub(super) fn extent(rows: &[ast::Row]) -> Option<TextRange> {
    rows.iter().map(ast::Row::range).reduce(TextRange::cover)
}

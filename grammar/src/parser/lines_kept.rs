//! Parsing a block again after an edit: every line has a part of the tree to itself and is read
//! without a look at any other, so lines that have not changed keep theirs. It must not know how a
//! line is read.

use std::ops::Range;

use rowan::{GreenNode, NodeCache, NodeOrToken, TextRange, TextSize};

use super::parse;
use crate::block::BlockTree;
use crate::lines::lines;
use crate::problem::Problem;
use crate::syntax::SyntaxKind;

/// Parses the text that a block of the same kind has now.
pub(crate) fn parse_again(old: &BlockTree, text: &str) -> (GreenNode, Vec<Problem>) {
    let old_text = old.text();
    let (before, now): (Vec<_>, Vec<_>) = (lines(&old_text).collect(), lines(text).collect());
    let head = before.iter().zip(&now).take_while(|(old, new)| old == new).count();
    let rest = before[head..].iter().rev().zip(now[head..].iter().rev());
    let tail = rest.take_while(|(old, new)| old == new).count();
    let start: usize = now[..head].iter().map(|line| line.len()).sum();
    let behind: usize = now[now.len() - tail..].iter().map(|line| line.len()).sum();
    let gone = Lines { at: head..before.len() - tail, bytes: start..old_text.len() - behind };
    parse_lines(old, &gone, &text[start..text.len() - behind])
}

/// Some lines that follow each other in a block.
pub(crate) struct Lines {
    /// Their numbers, counted from 0.
    pub(crate) at: Range<usize>,
    /// Where they stand, in bytes from the start of the block.
    pub(crate) bytes: Range<usize>,
}

/// Parses what stands in a block in the place of some lines.
pub(crate) fn parse_lines(old: &BlockTree, gone: &Lines, text: &str) -> (GreenNode, Vec<Problem>) {
    let (middle, found) = parse(old.kind, text, &mut NodeCache::default());
    let kept = |lines: Range<usize>| {
        old.green.children().skip(lines.start).take(lines.len()).map(NodeOrToken::to_owned)
    };
    let count = old.green.children().len();
    let children = kept(0..gone.at.start)
        .chain(middle.children().map(NodeOrToken::to_owned))
        .chain(kept(gone.at.end..count));
    let green = GreenNode::new(SyntaxKind::Block.into(), children.collect::<Vec<_>>());

    let start = size(gone.bytes.start);
    let is_before = |problem: &&Problem| problem.range.start() < start;
    let mut problems: Vec<_> = old.problems.iter().filter(is_before).cloned().collect();
    problems.extend(found.into_iter().map(|problem| moved(problem, |at| at + start)));
    // Something may be missing at the very end of the last line.
    let (has_more, old_end) = (gone.at.end < count, size(gone.bytes.end));
    let is_after = |problem: &&Problem| has_more && problem.range.start() >= old_end;
    let after = old.problems.iter().filter(is_after);
    let new_end = start + TextSize::of(text);
    problems.extend(after.cloned().map(|it| moved(it, |at| at - old_end + new_end)));
    (green, problems)
}

/// A problem at another place.
fn moved(mut problem: Problem, to: impl Fn(TextSize) -> TextSize) -> Problem {
    let range = |range: TextRange| TextRange::new(to(range.start()), to(range.end()));
    problem.range = range(problem.range);
    problem.mends.iter_mut().for_each(|mend| mend.range = range(mend.range));
    problem
}

fn size(bytes: usize) -> TextSize {
    TextSize::try_from(bytes).unwrap_or(TextSize::new(u32::MAX))
}

//! The formatter: the same sheet with its barlines and simultaneous notes under each other, and with
//! every sign in the form in which it is printed. It goes through the tree line by line; a line with
//! a problem is kept as it is. It must not change what a sheet says, nor know any music beyond the
//! equal shares of a bar.

mod grid;
mod line;
mod share;
mod system;

use std::ops::Range;
use std::sync::Arc;

use crate::block::BlockTree;
use crate::sheet::SheetTree;
use crate::syntax::{SyntaxKind, SyntaxNode};

/// The formatted text of a sheet. Line endings, blank lines and comments stay; formatting twice is
/// the same as formatting once.
pub fn format(text: &str) -> String {
    let mut formatted = String::with_capacity(text.len());
    let mut done = 0;
    for (range, insert) in edits(text) {
        formatted.push_str(&text[done..range.start]);
        formatted.push_str(&insert);
        done = range.end;
    }
    formatted.push_str(&text[done..]);
    formatted
}

/// What has to be replaced to format a sheet: byte ranges in the order of the text, at most one in
/// a line, each no longer than what differs.
pub fn edits(text: &str) -> Vec<(Range<usize>, String)> {
    let body = text.strip_prefix('\u{FEFF}').unwrap_or(text);
    let mark = text.len() - body.len();
    let sheet = SheetTree::parse(body);
    let blocks = sheet.blocks().iter().zip(sheet.starts());
    let shifted = |start: usize, (range, text): (Range<usize>, String)| {
        (start + range.start..start + range.end, text)
    };
    let of_block = |(block, start): (&Arc<BlockTree>, &usize)| {
        let start = mark + start;
        edits_of_block(block).into_iter().map(move |edit| shifted(start, edit))
    };
    blocks.flat_map(of_block).collect()
}

/// The same for one block, in bytes from its start.
pub fn edits_of_block(block: &BlockTree) -> Vec<(Range<usize>, String)> {
    let lines: Vec<SyntaxNode> = block.syntax().children().collect();
    let mut texts: Vec<Option<String>> = vec![None; lines.len()];
    let clean = clean_lines(block, &lines);
    for line in clean.iter().filter(|line| !is_row(&line.node)) {
        texts[line.index] = Some(line::text(&line.node, block.kind));
    }
    for (index, text) in system::rows(&lines, &clean) {
        texts[index] = Some(text);
    }
    lines.iter().zip(texts).filter_map(|(line, text)| change(line, &text?)).collect()
}

/// A line of a block that could be read without any problem.
struct CleanLine {
    /// Its place among all lines of the block.
    index: usize,
    node: SyntaxNode,
}

fn clean_lines(block: &BlockTree, lines: &[SyntaxNode]) -> Vec<CleanLine> {
    let mut problems = block.problems.iter().peekable();
    let mut clean = Vec::new();
    for (index, node) in lines.iter().enumerate() {
        let end = node.text_range().end();
        let mut reported = false;
        while problems.next_if(|problem| problem.range.start() < end).is_some() {
            reported = true;
        }
        if !reported {
            clean.push(CleanLine { index, node: node.clone() });
        }
    }
    clean
}

fn is_row(line: &SyntaxNode) -> bool {
    matches!(line.kind(), SyntaxKind::LineRow | SyntaxKind::VoiceRow | SyntaxKind::HarmonyRow)
}

/// What has to be replaced to make `line` read `text`; nothing if it does.
fn change(line: &SyntaxNode, text: &str) -> Option<(Range<usize>, String)> {
    let whole = line.to_string();
    let old = whole.trim_end_matches(['\n', '\r']);
    if old == text {
        return None;
    }
    let head = common(old.chars(), text.chars());
    let (old, new) = (&old[head..], &text[head..]);
    let tail = common(old.chars().rev(), new.chars().rev());
    let start = usize::from(line.text_range().start()) + head;
    let range = start..start + old.len() - tail;
    Some((range, new[..new.len() - tail].to_owned()))
}

/// Bytes of the characters that both begin with.
fn common(left: impl Iterator<Item = char>, right: impl Iterator<Item = char>) -> usize {
    left.zip(right).take_while(|(left, right)| left == right).map(|(char, _)| char.len_utf8()).sum()
}

//! A whole sheet as a list of blocks that share nothing. This module knows where each block begins;
//! it must not know what stands in one.

use std::sync::Arc;

use rayon::prelude::*;
use rowan::NodeCache;

use crate::block::BlockTree;
use crate::lines;

/// So many blocks share what is alike in their trees. Fewer are not worth another thread.
const TOGETHER: usize = 64;

/// A sheet, parsed. The first block is always the preamble, which may be empty.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetTree {
    pub(crate) blocks: Vec<Arc<BlockTree>>,
    pub(crate) starts: Vec<usize>,
}

impl SheetTree {
    /// Parses a sheet. Every text has a tree.
    pub fn parse(text: &str) -> Self {
        let pieces = lines::blocks(text);
        if pieces.len() <= TOGETHER {
            return Self::new(parse_together(&pieces).collect());
        }
        Self::new(pieces.par_chunks(TOGETHER).flat_map_iter(parse_together).collect())
    }

    /// The blocks in the order of the text.
    pub fn blocks(&self) -> &[Arc<BlockTree>] {
        &self.blocks
    }

    /// The length of the sheet in bytes.
    pub fn len(&self) -> usize {
        self.starts.last().map_or(0, |start| start + self.length_of_last())
    }

    /// Whether the sheet has no text at all.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// Where block `index` begins, in bytes; the end of the sheet if there is no such block.
    pub fn start(&self, index: usize) -> usize {
        self.starts.get(index).copied().unwrap_or_else(|| self.len())
    }

    /// Where each block begins, in bytes.
    pub fn starts(&self) -> &[usize] {
        &self.starts
    }

    /// The block in which the byte at `offset` stands; the last one beyond the end.
    pub fn block_at(&self, offset: usize) -> usize {
        self.starts.partition_point(|start| *start <= offset).saturating_sub(1)
    }

    /// The text of the sheet, byte for byte.
    pub fn text(&self) -> String {
        self.blocks.iter().map(|block| block.text()).collect()
    }

    pub(crate) fn new(blocks: Vec<Arc<BlockTree>>) -> Self {
        let lengths = blocks.iter().map(|block| usize::from(block.text_len()));
        let starts =
            lengths.scan(0, |end, length| Some(std::mem::replace(end, *end + length))).collect();
        Self { blocks, starts }
    }

    /// Brings the starts up to date before blocks from `first` on give way to others, given the lengths
    /// of both: those behind are shifted, without a look at them.
    pub(crate) fn shift_starts(&mut self, first: usize, old: &[usize], new: &[usize]) {
        let start = self.start(first);
        let old_end = start + old.iter().sum::<usize>();
        let ends = new.iter().scan(start, |end, length| {
            *end += length;
            Some(*end)
        });
        let mut starts: Vec<_> = std::iter::once(start).chain(ends).collect();
        let end = starts.pop().unwrap_or(start);
        self.starts[first + old.len()..]
            .iter_mut()
            .for_each(|start| *start = *start - old_end + end);
        self.starts.splice(first..first + old.len(), starts);
    }

    fn length_of_last(&self) -> usize {
        self.blocks.last().map_or(0, |block| usize::from(block.text_len()))
    }
}

/// Parses blocks, one after the other.
fn parse_together<'t>(pieces: &'t [&'t str]) -> impl Iterator<Item = Arc<BlockTree>> + 't {
    let mut known = NodeCache::default();
    pieces.iter().map(move |piece| Arc::new(BlockTree::parse_knowing(piece, &mut known)))
}

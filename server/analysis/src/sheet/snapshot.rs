//! A sheet at one moment, for readers: its blocks with where each begins. Cheap to make and to
//! share; nothing in it changes.

use std::ops::Range;
use std::sync::Arc;

use bicinium_grammar::TextRange;

use super::judged::{Exercise, Judged};
use crate::finding::Finding;
use crate::rulebook::Shelf;
use crate::score::lower::Definitions;

/// A sheet at one moment.
#[derive(Clone, Debug)]
pub struct Snapshot {
    blocks: Vec<Placed>,
    shelf: Arc<Shelf>,
    definitions: Definitions,
}

/// A block and where it begins.
#[derive(Clone, Debug)]
pub struct Placed {
    /// Where it begins in the sheet, in bytes.
    pub start: usize,
    /// The number of the exercise, counted from 1; `None` for other blocks.
    pub number: Option<usize>,
    /// The block, judged.
    pub judged: Arc<Judged>,
}

/// A finding and the block it was found in.
#[derive(Clone, Copy, Debug)]
pub struct Located<'a> {
    /// The block.
    pub block: &'a Placed,
    /// The finding, with offsets from the start of the block.
    pub finding: &'a Finding,
}

impl Snapshot {
    pub(super) fn new(
        starts: &[usize],
        blocks: &[Arc<Judged>],
        shelf: &Arc<Shelf>,
        definitions: &Definitions,
    ) -> Self {
        let mut exercises = 0;
        let placed = starts.iter().zip(blocks).map(|(start, judged)| {
            let number = judged.exercise.is_some().then(|| {
                exercises += 1;
                exercises
            });
            Placed { start: *start, number, judged: judged.clone() }
        });
        let blocks = placed.collect();
        Self { blocks, shelf: shelf.clone(), definitions: definitions.clone() }
    }

    /// The blocks in order.
    pub fn blocks(&self) -> &[Placed] {
        &self.blocks
    }

    /// The rulebooks that the sheet may name.
    pub fn shelf(&self) -> &Shelf {
        &self.shelf
    }

    /// The cantus definitions that the sheet may name.
    pub fn definitions(&self) -> &Definitions {
        &self.definitions
    }

    /// The block that a byte lies in; the last one for a byte beyond the end.
    pub fn block_at(&self, offset: usize) -> Option<&Placed> {
        let after = self.blocks.partition_point(|block| block.start <= offset);
        self.blocks.get(after.saturating_sub(1))
    }

    /// All findings in the order of the text.
    pub fn findings(&self) -> impl Iterator<Item = Located<'_>> {
        let of_block = |block| move |finding| Located { block, finding };
        self.blocks.iter().flat_map(move |block| block.judged.findings.iter().map(of_block(block)))
    }

    /// The exercises with their numbers.
    pub fn exercises(&self) -> impl Iterator<Item = (usize, &Placed, &Exercise)> {
        self.blocks
            .iter()
            .filter_map(|block| Some((block.number?, block, block.judged.exercise.as_ref()?)))
    }
}

impl Placed {
    /// A range of the block as a range of the sheet, in bytes.
    pub fn in_sheet(&self, range: TextRange) -> Range<usize> {
        self.start + usize::from(range.start())..self.start + usize::from(range.end())
    }
}

impl Located<'_> {
    /// Where the finding lies in the sheet, in bytes.
    pub fn range(&self) -> Range<usize> {
        self.block.in_sheet(self.finding.range)
    }
}

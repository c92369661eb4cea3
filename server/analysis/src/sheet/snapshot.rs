//! A sheet at one moment, for readers: its blocks with where each begins. Cheap to make and to
//! share; nothing in it changes.

use std::ops::Range;
use std::sync::{Arc, OnceLock};

use bicinium_grammar::TextRange;

use super::blocks::{Blocks, Group};
use super::judged::{Exercise, Judged};
use crate::finding::Finding;
use crate::rulebook::Shelf;
use crate::score::lower::Definitions;

/// A sheet at one moment.
#[derive(Debug)]
pub struct Snapshot {
    groups: Vec<Placement>,
    /// All blocks in one row, for who asks for them so.
    blocks: OnceLock<Vec<Placed>>,
    shelf: Arc<Shelf>,
    definitions: Definitions,
}

/// A group of blocks and where it begins. Each block gets its place when someone asks for it.
#[derive(Debug)]
struct Placement {
    start: usize,
    /// How many ends of lines come before.
    line: usize,
    /// How many exercises come before.
    exercises: usize,
    group: Arc<Group>,
    placed: OnceLock<Vec<Placed>>,
}

/// A block and where it begins.
#[derive(Clone, Debug)]
pub struct Placed {
    /// Where it begins in the sheet, in bytes.
    pub start: usize,
    /// The line at which it begins, counted from 0.
    pub line: usize,
    /// The number of the exercise, counted from 1; `None` for other blocks.
    pub number: Option<usize>,
    /// The block, judged.
    pub judged: Arc<Judged>,
}

/// A block in which something was found.
#[derive(Clone, Copy, Debug)]
pub struct Noted<'a> {
    /// Where it begins in the sheet, in bytes.
    pub start: usize,
    /// The line at which it begins, counted from 0.
    pub line: usize,
    /// The block, judged.
    pub judged: &'a Arc<Judged>,
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
    pub(super) fn new(blocks: &Blocks, shelf: &Arc<Shelf>, definitions: &Definitions) -> Self {
        let (mut start, mut line, mut exercises) = (0, 0, 0);
        let mut groups = Vec::with_capacity(blocks.groups().len());
        for group in blocks.groups() {
            let placed = OnceLock::new();
            groups.push(Placement { start, line, exercises, group: group.clone(), placed });
            start += group.length;
            line += group.line_ends;
            exercises += group.exercises;
        }
        let blocks = OnceLock::new();
        Self { groups, blocks, shelf: shelf.clone(), definitions: definitions.clone() }
    }

    /// The blocks in order.
    pub fn blocks(&self) -> &[Placed] {
        self.blocks.get_or_init(|| self.placed().cloned().collect())
    }

    fn placed(&self) -> impl Iterator<Item = &Placed> {
        self.groups.iter().flat_map(Placement::blocks)
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
        let after = self.groups.partition_point(|group| group.start <= offset);
        let blocks = self.groups.get(after.saturating_sub(1))?.blocks();
        let after = blocks.partition_point(|block| block.start <= offset);
        blocks.get(after.saturating_sub(1))
    }

    /// All findings in the order of the text.
    pub fn findings(&self) -> impl Iterator<Item = Located<'_>> {
        let of_block = |block| move |finding| Located { block, finding };
        self.placed().flat_map(move |block| block.judged.findings.iter().map(of_block(block)))
    }

    /// The blocks in which something was found, in the order of the text; the others are not even
    /// looked at.
    pub fn noted(&self) -> impl Iterator<Item = Noted<'_>> {
        self.groups.iter().flat_map(|placement| {
            placement.group.noted.iter().map(|noticed| Noted {
                start: placement.start + noticed.start,
                line: placement.line + noticed.line,
                judged: &placement.group.blocks[noticed.index],
            })
        })
    }

    /// The exercises with their numbers.
    pub fn exercises(&self) -> impl Iterator<Item = (usize, &Placed, &Exercise)> {
        self.placed()
            .filter_map(|block| Some((block.number?, block, block.judged.exercise.as_ref()?)))
    }
}

impl Placement {
    fn blocks(&self) -> &[Placed] {
        self.placed.get_or_init(|| {
            let (mut start, mut line, mut exercises) = (self.start, self.line, self.exercises);
            let place = |judged: &Arc<Judged>| {
                exercises += usize::from(judged.exercise.is_some());
                let number = judged.exercise.is_some().then_some(exercises);
                let placed = Placed { start, line, number, judged: judged.clone() };
                start += usize::from(judged.tree.text_len());
                line += judged.line_ends;
                placed
            };
            self.group.blocks.iter().map(place).collect()
        })
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

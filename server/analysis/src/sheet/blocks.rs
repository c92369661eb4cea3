//! The judged blocks of a sheet in order, in groups of limited size. A copy shares the groups, and
//! an edit makes anew only those that it touches, so that neither costs what the sheet is long.
//! Knows nothing of how blocks are judged.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::judged::Judged;

/// How many blocks are put into a group; one may grow to twice as many before it is split.
const SIZE: usize = 64;

/// Blocks in order.
#[derive(Clone, Debug, Default)]
pub(super) struct Blocks {
    groups: Vec<Arc<Group>>,
}

/// Some neighbouring blocks, never none.
#[derive(Debug)]
pub(super) struct Group {
    pub(super) blocks: Vec<Arc<Judged>>,
    /// Their length in bytes.
    pub(super) length: usize,
    /// How many of them are exercises.
    pub(super) exercises: usize,
    /// How many lines they end.
    pub(super) line_ends: usize,
    /// Those in which something was found.
    pub(super) noted: Vec<Noticed>,
    /// The paths of their `use` lines.
    uses: BTreeSet<String>,
    /// The rulebooks that they ask for.
    rulebooks: BTreeSet<String>,
}

/// A block in which something was found.
#[derive(Debug)]
pub(super) struct Noticed {
    /// Its place in the group.
    pub(super) index: usize,
    /// Bytes and ends of lines before it in the group.
    pub(super) start: usize,
    pub(super) line: usize,
}

impl Blocks {
    /// Puts `inserted` in the place of `removed` blocks from `first` on. Places beyond the end are
    /// brought to the end.
    pub(super) fn replace(&mut self, first: usize, removed: usize, inserted: Vec<Arc<Judged>>) {
        let (from, before) = self.find(first);
        let (last, _) = self.find(first + removed.max(1) - 1);
        let to = (last + 1).min(self.groups.len());
        let mut blocks: Vec<_> =
            self.groups[from..to].iter().flat_map(|group| group.blocks.iter().cloned()).collect();
        let start = (first - before).min(blocks.len());
        let end = (start + removed).min(blocks.len());
        blocks.splice(start..end, inserted);
        self.groups.splice(from..to, grouped(&blocks));
    }

    /// A block by its place.
    pub(super) fn get(&self, index: usize) -> Option<&Arc<Judged>> {
        let (group, before) = self.find(index);
        self.groups.get(group)?.blocks.get(index - before)
    }

    /// All blocks.
    pub(super) fn iter(&self) -> impl Iterator<Item = &Arc<Judged>> {
        self.groups.iter().flat_map(|group| &group.blocks)
    }

    /// The groups.
    pub(super) fn groups(&self) -> &[Arc<Group>] {
        &self.groups
    }

    /// The paths of all `use` lines, each once.
    pub(super) fn uses(&self) -> BTreeSet<String> {
        self.groups.iter().flat_map(|group| group.uses.iter().cloned()).collect()
    }

    /// All rulebooks that are asked for, each once.
    pub(super) fn rulebooks(&self) -> BTreeSet<String> {
        let names: BTreeSet<_> = self.groups.iter().flat_map(|group| &group.rulebooks).collect();
        names.into_iter().cloned().collect()
    }

    /// The group that a block is in, and how many blocks come before that group; the last group for
    /// places beyond the end.
    fn find(&self, index: usize) -> (usize, usize) {
        let mut before = 0;
        for (number, group) in self.groups.iter().enumerate() {
            let is_last = number + 1 == self.groups.len();
            if is_last || index < before + group.blocks.len() {
                return (number, before);
            }
            before += group.blocks.len();
        }
        (0, 0)
    }
}

impl FromIterator<Arc<Judged>> for Blocks {
    fn from_iter<T: IntoIterator<Item = Arc<Judged>>>(blocks: T) -> Self {
        Self { groups: grouped(&blocks.into_iter().collect::<Vec<_>>()) }
    }
}

/// Blocks in groups; few of them make one.
fn grouped(blocks: &[Arc<Judged>]) -> Vec<Arc<Group>> {
    let size = if blocks.len() <= 2 * SIZE { 2 * SIZE } else { SIZE };
    blocks.chunks(size).map(|blocks| Arc::new(Group::of(blocks.to_vec()))).collect()
}

impl Group {
    fn of(blocks: Vec<Arc<Judged>>) -> Self {
        Self {
            length: blocks.iter().map(|block| length(block)).sum(),
            exercises: blocks.iter().filter(|block| block.exercise.is_some()).count(),
            line_ends: blocks.iter().map(|block| block.line_ends).sum(),
            noted: noted(&blocks),
            uses: blocks.iter().flat_map(|block| block.uses.iter().cloned()).collect(),
            rulebooks: blocks.iter().filter_map(|block| block.rulebook()).map(Into::into).collect(),
            blocks,
        }
    }
}

fn noted(blocks: &[Arc<Judged>]) -> Vec<Noticed> {
    let (mut start, mut line) = (0, 0);
    let mut noted = Vec::new();
    for (index, block) in blocks.iter().enumerate() {
        if !block.findings.is_empty() {
            noted.push(Noticed { index, start, line });
        }
        start += length(block);
        line += block.line_ends;
    }
    noted
}

fn length(block: &Judged) -> usize {
    usize::from(block.tree.text_len())
}

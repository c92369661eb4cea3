//! Reparsing after an edit: only blocks that the edit touches are parsed again, all others keep
//! their trees. The result is always the same as parsing the new text from the start. This module
//! must not know what stands in a block, only where blocks begin and end.

use std::ops::Range;
use std::sync::Arc;

use crate::block::BlockTree;
use crate::lines;
use crate::sheet::SheetTree;

/// What an edit has redone: `removed` blocks from `first` on gave way to `inserted` new ones.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Redone {
    /// The first block that was parsed again.
    pub first: usize,
    /// How many of the old blocks are gone.
    pub removed: usize,
    /// How many new blocks stand in their place.
    pub inserted: usize,
}

impl SheetTree {
    /// Replaces the bytes `range` by `insert`. A range beyond the end is cut off, one turned round
    /// is empty, and an end within a character is moved before that character.
    pub fn edit(&mut self, range: Range<usize>, insert: &str) -> Redone {
        if let Some(redone) = self.edit_line(&range, insert) {
            return redone;
        }
        let range = self.clamp(range);
        let last = self.block_at(range.end);
        let mut first = self.block_at(range.start);
        let mut text = self.edited(first, last, &range, insert);
        if first > 0 && lines::opener(&text).is_none() {
            first -= 1;
            text.insert_str(0, &self.blocks[first].text());
        }
        self.replace(first, last, &text)
    }

    /// The same for an edit within one line, for which no other one is looked at; `None` if it is not such.
    fn edit_line(&mut self, range: &Range<usize>, insert: &str) -> Option<Redone> {
        let first = self.block_at(range.start);
        let (start, old) = (self.start(first), &self.blocks[first]);
        let in_block = range.start - start..range.end.checked_sub(start)?;
        let new = Arc::new(old.edit_line(&in_block, insert)?);
        self.shift_starts(first, &[old.text_len().into()], &[new.text_len().into()]);
        self.blocks[first] = new;
        Some(Redone { first, removed: 1, inserted: 1 })
    }

    fn clamp(&self, range: Range<usize>) -> Range<usize> {
        let start = self.floor(range.start);
        start..self.floor(range.end).max(start)
    }

    /// The last place at or before `offset` that lies between two characters.
    fn floor(&self, offset: usize) -> usize {
        let offset = offset.min(self.len());
        let block = self.block_at(offset);
        let start = self.start(block);
        let text = self.blocks[block].text();
        let boundary = (0..=offset - start).rev().find(|index| text.is_char_boundary(*index));
        start + boundary.unwrap_or(0)
    }

    /// The text of the blocks `first` to `last` after the edit.
    fn edited(&self, first: usize, last: usize, range: &Range<usize>, insert: &str) -> String {
        let mut text: String = self.blocks[first..=last].iter().map(|block| block.text()).collect();
        let start = self.start(first);
        text.replace_range(range.start - start..range.end - start, insert);
        text
    }

    /// Puts the blocks of `text` in the place of the blocks `first` to `last`, keeping those at
    /// both ends whose text is as before.
    fn replace(&mut self, first: usize, last: usize, text: &str) -> Redone {
        let mut pieces = lines::blocks(text);
        if first > 0 {
            pieces.remove(0);
        }
        let old: Vec<String> = self.blocks[first..=last].iter().map(|block| block.text()).collect();
        let head = pieces.iter().zip(&old).take_while(|(new, old)| new == old).count();
        let (new, old) = (&pieces[head..], &old[head..]);
        let tail =
            new.iter().rev().zip(old.iter().rev()).take_while(|(new, old)| new == old).count();
        let (new, old) = (&new[..new.len() - tail], &old[..old.len() - tail]);
        let at = first + head;
        let old_lengths: Vec<_> = old.iter().map(String::len).collect();
        let new_lengths: Vec<_> = new.iter().map(|piece| piece.len()).collect();
        self.shift_starts(at, &old_lengths, &new_lengths);
        let parsed = match (old, new) {
            ([_], [piece]) => vec![Arc::new(self.blocks[at].parse_again(piece))],
            _ => new.iter().map(|piece| Arc::new(BlockTree::parse(piece))).collect(),
        };
        self.blocks.splice(at..at + old.len(), parsed);
        Redone { first: at, removed: old.len(), inserted: new.len() }
    }
}

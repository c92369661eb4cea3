//! A sheet that is read but not judged yet. What it asks for can be fetched first, so that nothing in it
//! is judged twice. Knows no files.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use bicinium_grammar::SheetTree;
use bicinium_grammar::ast;

use super::{Import, Sheet};
use crate::rulebook::Shelf;

/// A sheet that is not judged yet.
#[derive(Debug)]
pub struct Unjudged {
    tree: SheetTree,
}

impl Unjudged {
    /// The sheet of a text.
    pub fn new(text: &str) -> Self {
        Self { tree: SheetTree::parse(text) }
    }

    /// The paths of the `use` lines, each once.
    pub fn uses(&self) -> BTreeSet<String> {
        self.blocks().flat_map(|block| block.uses()).map(|line| line.path).collect()
    }

    /// The rulebooks that are asked for, by name or by path, each once.
    pub fn rulebooks(&self) -> BTreeSet<String> {
        let judged = self.blocks().filter(|block| !matches!(block, ast::Block::Cantus(_)));
        judged.flat_map(|block| block.rulebooks()).collect()
    }

    /// Judges it, with what its `use` lines ask for and the rulebooks that it may name.
    pub fn judge(self, imports: BTreeMap<String, Import>, books: Arc<Shelf>) -> Sheet {
        Sheet::judged(self.tree, imports, books)
    }

    fn blocks(&self) -> impl Iterator<Item = ast::Block> + '_ {
        self.tree.blocks().iter().map(|block| block.ast())
    }
}

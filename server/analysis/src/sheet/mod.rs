//! A sheet kept up to date edit by edit. The blocks of a sheet are judged one by one, each with
//! what it takes from the others; an edit judges again only the blocks that it touches and those
//! that depend on a cantus or a setting that has changed. Knows no editor and no files.

mod findings;
mod judged;
mod licensing;
mod rulebook;
mod snapshot;
mod trial;
mod unfinished;

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use std::sync::Arc;

use bicinium_grammar::{BlockKind, BlockTree, SheetTree};

use crate::rulebook::Shelf;
use crate::score::lower::Definitions;
use crate::score::settings::Settings;

pub use findings::place;
pub use judged::{Exercise, Judged};
pub use licensing::{UNKNOWN_RULE, UNUSED_LICENCE};
pub use rulebook::RULEBOOK;
pub use snapshot::{Located, Placed, Snapshot};
pub use trial::{Account, Change, Tally, is_accepted};
pub use unfinished::UNFINISHED;

/// A sheet, judged.
#[derive(Debug)]
pub struct Sheet {
    shelf: Arc<Shelf>,
    tree: SheetTree,
    settings: Settings,
    imports: BTreeMap<String, Import>,
    definitions: Definitions,
    blocks: Vec<Arc<Judged>>,
}

/// The definitions that another sheet lends, or why it cannot be read.
pub type Import = Result<Definitions, String>;

/// How much of a sheet was done again for an edit.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Work {
    /// Blocks parsed.
    pub parsed: usize,
    /// Blocks judged.
    pub judged: usize,
}

impl Sheet {
    /// Judges a sheet from its text.
    pub fn new(text: &str, shelf: Arc<Shelf>) -> Self {
        let mut sheet = Self {
            shelf,
            tree: SheetTree::parse(text),
            settings: Settings::default(),
            imports: BTreeMap::new(),
            definitions: Definitions::new(),
            blocks: Vec::new(),
        };
        sheet.judge(&[]);
        sheet
    }

    /// Replaces a range of bytes, and says how much was done again. A range outside the text is
    /// brought inside it.
    pub fn edit(&mut self, range: Range<usize>, insert: &str) -> Work {
        let redone = self.tree.edit(range, insert);
        let mut old = std::mem::take(&mut self.blocks);
        let mut known: Vec<Option<Arc<Judged>>> = Vec::with_capacity(old.len());
        let tail = old.split_off((redone.first + redone.removed).min(old.len()));
        known.extend(old.into_iter().take(redone.first).map(Some));
        known.extend((0..redone.inserted).map(|_| None));
        known.extend(tail.into_iter().map(Some));
        let judged = self.judge(&known);
        Work { parsed: redone.inserted, judged }
    }

    /// Takes the definitions that a `use` line asks for, or the reason why they cannot be had.
    pub fn provide(&mut self, path: &str, import: Import) -> Work {
        self.imports.insert(path.to_owned(), import);
        self.judge_again()
    }

    /// Takes other rulebooks to choose from; only what is judged by one that has changed is judged
    /// again.
    pub fn shelve(&mut self, rulebooks: Arc<Shelf>) -> Work {
        self.shelf = rulebooks;
        self.judge_again()
    }

    /// The rulebooks that are asked for, by name or by path, each once.
    pub fn rulebooks(&self) -> BTreeSet<String> {
        let named = self.blocks.iter().filter_map(|block| block.rulebook());
        named.map(ToOwned::to_owned).collect()
    }

    /// The paths of the `use` lines, in order.
    pub fn uses(&self) -> Vec<String> {
        self.blocks.iter().flat_map(|block| block.uses.iter().cloned()).collect()
    }

    /// The cantus definitions of this sheet and of those that it uses.
    pub fn definitions(&self) -> &Definitions {
        &self.definitions
    }

    /// The tree of the sheet.
    pub fn tree(&self) -> &SheetTree {
        &self.tree
    }

    /// The sheet as it is now, for readers.
    pub fn snapshot(&self) -> Arc<Snapshot> {
        Arc::new(Snapshot::new(self.tree.starts(), &self.blocks, &self.shelf, &self.definitions))
    }

    /// Judges what has taken something that is no longer so.
    fn judge_again(&mut self) -> Work {
        let known: Vec<_> = std::mem::take(&mut self.blocks).into_iter().map(Some).collect();
        Work { parsed: 0, judged: self.judge(&known) }
    }

    /// Judges every block whose verdict is not known or no longer holds, and counts them.
    fn judge(&mut self, known: &[Option<Arc<Judged>>]) -> usize {
        let trees = self.tree.blocks().to_vec();
        let mut count = 0;
        let mut blocks = Vec::with_capacity(trees.len());
        self.settings = Settings::default();
        self.definitions = self.imported();
        for (index, tree) in trees.iter().enumerate().filter(|(_, tree)| !is_exercise(tree)) {
            let known = known.get(index).and_then(Option::as_ref);
            let block = self.judge_block(tree, known, &mut count);
            self.learn(&block);
            blocks.push((index, block));
        }
        for (index, tree) in trees.iter().enumerate().filter(|(_, tree)| is_exercise(tree)) {
            let known = known.get(index).and_then(Option::as_ref);
            blocks.push((index, self.judge_block(tree, known, &mut count)));
        }
        blocks.sort_by_key(|(index, _)| *index);
        self.blocks = blocks.into_iter().map(|(_, block)| block).collect();
        count
    }

    fn imported(&self) -> Definitions {
        let lent = self.imports.values().filter_map(|import| import.as_ref().ok());
        lent.flatten().map(|(name, notes)| (name.clone(), notes.clone())).collect()
    }

    fn learn(&mut self, block: &Judged) {
        if let Some(settings) = &block.preamble {
            self.settings = settings.clone();
        }
        if let Some(defined) = &block.defined {
            self.definitions.entry(defined.name.clone()).or_insert_with(|| defined.notes.clone());
        }
    }

    fn judge_block(
        &self,
        tree: &Arc<BlockTree>,
        known: Option<&Arc<Judged>>,
        count: &mut usize,
    ) -> Arc<Judged> {
        let context = judged::Context {
            shelf: &self.shelf,
            settings: &self.settings,
            definitions: &self.definitions,
            imports: &self.imports,
        };
        match known {
            Some(known) if known.holds(tree, &context) => known.clone(),
            _ => {
                *count += 1;
                Arc::new(Judged::new(tree, &context))
            }
        }
    }
}

fn is_exercise(tree: &BlockTree) -> bool {
    tree.kind == BlockKind::Exercise
}

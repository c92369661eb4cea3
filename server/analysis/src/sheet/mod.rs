//! A sheet kept up to date edit by edit. The blocks of a sheet are judged one by one, each with
//! what it takes from the others; an edit judges again only the blocks that it touches and those
//! that depend on a cantus or a setting that has changed. Knows no editor and no files.

mod blocks;
mod findings;
mod judged;
mod kept;
mod licensing;
mod limits;
mod rulebook;
mod snapshot;
mod trial;
mod unfinished;
mod unjudged;
mod uses;
mod workings;

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use std::sync::Arc;

use bicinium_grammar::{BlockKind, BlockTree, Redone, SheetTree};
use rayon::prelude::*;

use crate::rulebook::{Rulebook, Shelf};
use crate::score::lower::Definitions;
use crate::score::settings::Settings;
use blocks::Blocks;
use workings::LastEdited;

pub use findings::place;
pub use judged::{Exercise, Judged};
pub use kept::Kept;
pub use licensing::{UNKNOWN_RULE, UNUSED_LICENCE};
pub use limits::TOO_LONG;
pub use rulebook::RULEBOOK;
pub use snapshot::{Located, Noted, Placed, Snapshot};
pub use trial::{Account, Change, Tally, is_accepted};
pub use unfinished::UNFINISHED;
pub use unjudged::Unjudged;

/// Fewer exercises than this are not worth another thread.
const WORTHWHILE: usize = 32;

/// A sheet, judged.
#[derive(Debug)]
pub struct Sheet {
    shelf: Arc<Shelf>,
    tree: SheetTree,
    settings: Settings,
    imports: BTreeMap<String, Import>,
    definitions: Definitions,
    blocks: Blocks,
    last_edited: LastEdited,
}

/// What another sheet lends, or why it cannot be read.
pub type Import = Result<Lent, String>;

/// What another sheet lends.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Lent {
    /// Its definitions.
    pub definitions: Definitions,
    /// How it comes to use the sheet that uses it, as "songs.bicinium uses this sheet"; `None` if it
    /// does not.
    pub leads_back: Option<String>,
}

/// How much of a sheet was done again for an edit.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Work {
    /// Blocks parsed.
    pub parsed: usize,
    /// Blocks judged.
    pub judged: usize,
    /// Moments of an exercise at which the music was heard again, if the edit lies inside that one
    /// exercise.
    pub heard: Option<usize>,
}

impl Sheet {
    /// Judges a sheet from its text. What it takes from others is given to it later, or before by way of
    /// [`Unjudged`].
    pub fn new(text: &str, shelf: Arc<Shelf>) -> Self {
        Unjudged::new(text).judge(BTreeMap::new(), shelf)
    }

    fn judged(tree: SheetTree, imports: BTreeMap<String, Import>, shelf: Arc<Shelf>) -> Self {
        let mut sheet = Self {
            shelf,
            tree,
            settings: Settings::default(),
            imports,
            definitions: Definitions::new(),
            blocks: Blocks::default(),
            last_edited: LastEdited::default(),
        };
        sheet.judge_all(&[], Known::MayHold);
        sheet
    }

    /// Replaces a range of bytes, and says how much was done again. A range outside the text is
    /// brought inside it.
    pub fn edit(&mut self, range: Range<usize>, insert: &str) -> Work {
        let redone = self.tree.edit(range, insert);
        let parsed = redone.inserted;
        if !self.is_lent_by_none(redone) {
            return Work { parsed, judged: self.judge_dependants(redone), heard: None };
        }
        let heard = match (redone.removed, redone.inserted) {
            (1, 1) => Some(self.go_on_with_exercise(redone.first)),
            _ => None,
        };
        if heard.is_none() {
            self.judge_exercises(redone);
        }
        Work { parsed, judged: redone.inserted, heard }
    }

    /// Takes what a `use` line asks for, or the reason why it cannot be had.
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
        self.blocks.rulebooks()
    }

    /// The paths of the `use` lines, each once.
    pub fn uses(&self) -> BTreeSet<String> {
        self.blocks.uses()
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
        Arc::new(Snapshot::new(&self.blocks, &self.shelf, &self.definitions))
    }

    /// What another rulebook says of an exercise, whatever the sheet names; nothing is changed. `None` if
    /// there is no exercise of this number, counted from 1.
    pub fn by_another(&self, number: usize, rulebook: &Arc<Rulebook>) -> Option<Placed> {
        let snapshot = self.snapshot();
        let (_, block, _) = snapshot.exercises().find(|(own, ..)| *own == number)?;
        let bound = Arc::new(Shelf::clone(&self.shelf).bound_to(rulebook.clone()));
        let context = judged::Context { shelf: &bound, ..self.context() };
        let judged = Arc::new(Judged::new(&block.judged.tree, &context));
        Some(Placed { judged, ..block.clone() })
    }

    /// Whether an edit concerns only blocks from which no other block takes anything.
    fn is_lent_by_none(&self, redone: Redone) -> bool {
        let old = (redone.first..redone.first + redone.removed).map(|index| self.blocks.get(index));
        let mut old = old.flatten().map(|block| &block.tree);
        let mut new = self.tree.blocks()[redone.first..redone.first + redone.inserted].iter();
        old.all(|tree| is_exercise(tree)) && new.all(|tree| is_exercise(tree))
    }

    /// Judges the blocks of an edit; all others stay what they are.
    fn judge_exercises(&mut self, redone: Redone) {
        let new = &self.tree.blocks()[redone.first..redone.first + redone.inserted];
        let judged = new.iter().map(|tree| Arc::new(Judged::new(tree, &self.context()))).collect();
        self.blocks.replace(redone.first, redone.removed, judged);
    }

    /// Judges an exercise that has changed, as far as the change has any influence; returns at how many
    /// moments the music was heard again.
    fn go_on_with_exercise(&mut self, index: usize) -> usize {
        let old = self.blocks.get(index).and_then(|block| self.last_edited.take(&block.tree));
        let tree = self.tree.blocks()[index].clone();
        let fresh = Judged::fresh(&tree, &self.context(), old);
        self.blocks.replace(index, 1, vec![Arc::new(fresh.judged)]);
        if let Some(workings) = fresh.workings {
            self.last_edited.keep(&tree, workings);
        }
        fresh.heard
    }

    /// Judges the blocks of an edit and those that depend on them.
    fn judge_dependants(&mut self, redone: Redone) -> usize {
        let old = std::mem::take(&mut self.blocks);
        let head = old.iter().take(redone.first).cloned().map(Some);
        let tail = old.iter().skip(redone.first + redone.removed).cloned().map(Some);
        let known: Vec<_> = head.chain((0..redone.inserted).map(|_| None)).chain(tail).collect();
        self.judge_all(&known, Known::HoldsIfContextDoes)
    }

    /// Judges what has taken something that is no longer so.
    fn judge_again(&mut self) -> Work {
        let known: Vec<_> = self.blocks.iter().cloned().map(Some).collect();
        Work { judged: self.judge_all(&known, Known::MayHold), ..Work::default() }
    }

    /// Judges every block whose verdict is not known or no longer holds, and counts them.
    fn judge_all(&mut self, known: &[Option<Arc<Judged>>], are: Known) -> usize {
        let trees = self.tree.blocks().to_vec();
        let mut blocks: Vec<Option<Arc<Judged>>> = vec![None; trees.len()];
        let before = (std::mem::take(&mut self.settings), std::mem::take(&mut self.definitions));
        self.definitions = self.imported();
        let mut count = 0;
        let known = |index: usize| known.get(index).and_then(Option::as_ref);
        for (index, tree) in trees.iter().enumerate().filter(|(_, tree)| !is_exercise(tree)) {
            let held = known(index).filter(|known| known.holds(tree, &self.context()));
            count += usize::from(held.is_none());
            let block = held.cloned().unwrap_or_else(|| self.verdict(tree));
            self.learn(&block);
            blocks[index] = Some(block);
        }
        let is_same = before.0 == self.settings && before.1 == self.definitions;
        let is_kept = is_same && are == Known::HoldsIfContextDoes;
        let mut open = Vec::new();
        for (index, tree) in trees.iter().enumerate().filter(|(_, tree)| is_exercise(tree)) {
            let holds = |known: &&Arc<Judged>| is_kept || known.holds(tree, &self.context());
            blocks[index] = known(index).filter(holds).cloned();
            if blocks[index].is_none() {
                open.push(index);
            }
        }
        count += open.len();
        let judge = |index: &usize| self.verdict(&trees[*index]);
        let judged: Vec<_> = match open.len() {
            0..WORTHWHILE => open.iter().map(judge).collect(),
            _ => open.par_iter().map(judge).collect(),
        };
        open.iter().zip(judged).for_each(|(index, block)| blocks[*index] = Some(block));
        self.blocks = blocks.into_iter().flatten().collect();
        count
    }

    fn verdict(&self, tree: &Arc<BlockTree>) -> Arc<Judged> {
        Arc::new(Judged::new(tree, &self.context()))
    }

    fn context(&self) -> judged::Context<'_> {
        judged::Context {
            shelf: &self.shelf,
            settings: &self.settings,
            definitions: &self.definitions,
            imports: &self.imports,
        }
    }

    fn imported(&self) -> Definitions {
        let lent = self.imports.values().filter_map(|import| import.as_ref().ok());
        let lent = lent.flat_map(|lent| &lent.definitions);
        lent.map(|(name, notes)| (name.clone(), notes.clone())).collect()
    }

    fn learn(&mut self, block: &Judged) {
        if let Some(settings) = &block.preamble {
            self.settings = settings.clone();
        }
        if let Some(defined) = &block.defined {
            self.definitions.entry(defined.name.clone()).or_insert_with(|| defined.notes.clone());
        }
    }
}

/// What is known of verdicts from before.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Known {
    /// Each may hold or not.
    MayHold,
    /// They hold if the sheet still lends what it lent.
    HoldsIfContextDoes,
}

fn is_exercise(tree: &BlockTree) -> bool {
    tree.kind == BlockKind::Exercise
}

//! What a sheet says to others. It must not know who reads it.

use bicinium_analysis::score::lower::{self, Definitions};
use bicinium_grammar::{SheetTree, ast};

/// What a sheet says to others.
#[derive(Debug, Default)]
pub struct Contents {
    /// The cantus that it defines; of two with the same name the first.
    pub definitions: Definitions,
    /// The paths of its `use` lines.
    pub uses: Vec<String>,
}

impl Contents {
    /// What a text says to others.
    pub fn of(text: &str) -> Self {
        let sheet = SheetTree::parse(text);
        let mut contents = Self::default();
        for block in sheet.blocks().iter().map(|block| block.ast()) {
            contents.uses.extend(block.uses().into_iter().map(|line| line.path));
            if let ast::Block::Cantus(cantus) = block
                && let Some(defined) = lower::cantus(&cantus, &mut Vec::new())
            {
                contents.definitions.entry(defined.name).or_insert(defined.notes);
            }
        }
        contents
    }
}

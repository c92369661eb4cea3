//! What a sheet takes from others: the cantus definitions of the sheets that its `use` lines name,
//! and only those that stand in them; what they use in their turn is not followed, so sheets may
//! use each other. Where a path leads is decided by whoever asks. It must not know any editor.

use std::collections::BTreeSet;
use std::path::Path;

use bicinium_analysis::Sheet;
use bicinium_analysis::score::lower::{self, Definitions};
use bicinium_grammar::{SheetTree, ast};

use crate::disk;

/// Reads the text of the sheet at a path of a `use` line, or says in words why it cannot be had.
pub type Reader<'a> = dyn Fn(&str) -> Result<String, String> + 'a;

/// Why a sheet cannot use itself, as the end of a sentence.
pub const ITSELF: &str = "it is this very sheet, whose definitions hold here in any case";

/// The text of another sheet, named as seen from one; or why it cannot be had, as the end of a sentence.
pub fn read_beside(own: &Path, path: &str) -> Result<String, String> {
    let other = own.parent().unwrap_or(Path::new("")).join(path);
    match (std::fs::canonicalize(own), std::fs::canonicalize(&other)) {
        (Ok(own), Ok(other)) if own == other => Err(ITSELF.to_owned()),
        _ => disk::read(&other),
    }
}

/// What one sheet has taken from others.
#[derive(Debug, Default)]
pub struct Loans {
    paths: BTreeSet<String>,
}

impl Loans {
    /// Brings what the sheet takes in line with its `use` lines.
    pub fn settle(&mut self, sheet: &mut Sheet, read: &Reader<'_>) {
        let uses = sheet.uses();
        for path in self.paths.difference(&uses) {
            sheet.provide(path, Ok(Definitions::new()));
        }
        for path in uses.difference(&self.paths) {
            lend(sheet, path, read);
        }
        self.paths = uses;
    }

    /// Takes anew what comes from the paths that are meant; whether anything was judged again.
    pub fn renew(
        &self,
        sheet: &mut Sheet,
        is_meant: impl Fn(&str) -> bool,
        read: &Reader<'_>,
    ) -> bool {
        let paths = self.paths.iter().filter(|path| is_meant(path));
        paths.map(|path| lend(sheet, path, read)).sum::<usize>() > 0
    }

    /// Starts over with a sheet that has taken nothing.
    pub fn forget(&mut self) {
        self.paths.clear();
    }
}

/// Lends what stands in the sheet at a path, and returns how many blocks were judged again for it.
fn lend(sheet: &mut Sheet, path: &str, read: &Reader<'_>) -> usize {
    sheet.provide(path, read(path).map(|text| definitions(&text))).judged
}

/// The cantus definitions that stand in a text; of two with the same name the first.
fn definitions(text: &str) -> Definitions {
    let sheet = SheetTree::parse(text);
    let defined = sheet.blocks().iter().filter_map(|block| match block.ast() {
        ast::Block::Cantus(cantus) => lower::cantus(&cantus, &mut Vec::new()),
        _ => None,
    });
    let mut definitions = Definitions::new();
    for defined in defined {
        definitions.entry(defined.name).or_insert(defined.notes);
    }
    definitions
}

//! Exercises and cantus definitions of the whole workspace, by name: of the sheets that are open as they
//! are on screen, of all others in the folders of the client as they are on disk. Nothing is judged for
//! it.
//!
//! It must not know what the names are used for.

use std::collections::BTreeMap;
use std::path::PathBuf;

use bicinium_grammar::{BlockKind, BlockTree, SheetTree};
use tower_lsp::lsp_types::{SymbolInformation, Url};

use super::convert::workspace_symbol::found;
use super::library::normal;
use super::survey::sheets;
use super::text::{Encoding, Text};
use crate::disk;
use crate::features::symbols::{Symbol, SymbolKind, of_block};

/// More than anybody reads.
const MOST: usize = 500;

/// What is searched.
pub(super) struct Search {
    /// The open sheets as they are now.
    pub(super) open: Vec<(Url, Text)>,
    /// The folders of the client.
    pub(super) folders: Vec<PathBuf>,
    /// How the client counts columns.
    pub(super) encoding: Encoding,
}

impl Search {
    /// What has all letters of a query in its name, in their order; upper and lower case are the same.
    pub(super) fn search(self, query: &str) -> Vec<SymbolInformation> {
        let mut others: BTreeMap<Url, PathBuf> = sheets(&self.folders);
        let mut matching = Vec::new();
        for (uri, text) in &self.open {
            others.remove(&normal(uri));
            matching.extend(self.in_sheet(uri, text, query));
        }
        for (uri, path) in others {
            if matching.len() >= MOST {
                break;
            }
            let text = disk::read(&path).map(|text| Text::from(&*text));
            matching.extend(text.iter().flat_map(|text| self.in_sheet(&uri, text, query)));
        }
        matching.truncate(MOST);
        matching
    }

    fn in_sheet(&self, uri: &Url, text: &Text, query: &str) -> Vec<SymbolInformation> {
        let sheet = SheetTree::parse(&text.to_string());
        let mut exercises = 0;
        let mut matching = Vec::new();
        for (block, start) in sheet.blocks().iter().zip(sheet.starts()) {
            exercises += usize::from(block.kind == BlockKind::Exercise);
            let named = named(block, exercises).filter(|symbol| matches(&symbol.name, query));
            matching.extend(named.map(|symbol| found(&symbol, uri, text, *start, self.encoding)));
        }
        matching
    }
}

fn named(block: &BlockTree, number: usize) -> impl Iterator<Item = Symbol> + use<> {
    let symbols = of_block(block, Some(number)).into_iter();
    symbols.filter(|it| matches!(it.kind, SymbolKind::Exercise | SymbolKind::Cantus))
}

/// Whether a name has all letters of a query in their order.
fn matches(name: &str, query: &str) -> bool {
    let name = name.to_lowercase();
    let mut letters = name.chars();
    query.to_lowercase().chars().all(|wanted| letters.any(|letter| letter == wanted))
}

#[cfg(test)]
mod tests {
    use super::matches;

    #[test]
    fn letters_are_looked_for_in_their_order() {
        for (query, is_found) in [("", true), ("qsg", true), ("QUAY", true), ("gsq", false)] {
            assert_eq!(matches("quay-song", query), is_found, "{query}");
        }
    }
}

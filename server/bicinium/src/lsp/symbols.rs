//! Exercises and cantus definitions of the whole workspace, by name.
//!
//! It must not know what the names are used for.

use bicinium_grammar::{BlockKind, BlockTree};
use tower_lsp::lsp_types::SymbolInformation;

use super::convert::workspace_symbol::found;
use super::sheets::{Sheets, Written};
use super::text::Encoding;
use crate::features::symbols::{Symbol, SymbolKind, of_block};

/// More than anybody reads.
const MOST: usize = 500;

/// What has all letters of a query in its name, in their order; upper and lower case are the same.
pub(super) fn search(sheets: &Sheets, query: &str, encoding: Encoding) -> Vec<SymbolInformation> {
    let matching = sheets.all().flat_map(|sheet| in_sheet(&sheet, query, encoding));
    matching.take(MOST).collect()
}

fn in_sheet(sheet: &Written, query: &str, encoding: Encoding) -> Vec<SymbolInformation> {
    let tree = sheet.tree();
    let mut exercises = 0;
    let mut matching = Vec::new();
    for (block, start) in tree.blocks().iter().zip(tree.starts()) {
        exercises += usize::from(block.kind == BlockKind::Exercise);
        let named = named(block, exercises).filter(|symbol| matches(&symbol.name, query));
        matching.extend(named.map(|it| found(&it, &sheet.uri, &sheet.text, *start, encoding)));
    }
    matching
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

//! What a sheet is made of and what belongs together in it, as the protocol wants it: symbols, folds,
//! selections.
//!
//! It must not know what a sheet consists of.

use std::ops::Range;

use bicinium_analysis::sheet::Placed;
use tower_lsp::lsp_types as lsp;

use crate::features::folding::{Fold, FoldKind, folds};
use crate::features::selection::around;
use crate::features::symbols::{self, Symbol, SymbolKind};
use crate::lsp::blocks::Block;
use crate::lsp::client::{Ability, ClientProfile};
use crate::lsp::document::Judged;
use crate::lsp::text::Encoding;

/// The symbols of a document: in a tree if the client takes that, else in one row.
pub(in crate::lsp) fn symbols(
    judged: &Judged,
    uri: &lsp::Url,
    client: &ClientProfile,
) -> lsp::DocumentSymbolResponse {
    let tree = |placed: &Placed| {
        let block = judged.block(placed);
        block.list(&placed.number, || {
            let symbols = symbols::of_block(&placed.judged.tree, placed.number).into_iter();
            symbols.map(|it| symbol(it, block, client.encoding)).collect()
        })
    };
    let trees: Vec<_> = judged.snapshot.blocks().iter().flat_map(tree).collect();
    if client.can(Ability::SymbolTrees) {
        return lsp::DocumentSymbolResponse::Nested(trees);
    }
    let mut row = Vec::new();
    for tree in trees {
        flatten(tree, None, uri, &mut row);
    }
    lsp::DocumentSymbolResponse::Flat(row)
}

#[expect(deprecated, reason = "the type cannot be made without it")]
fn symbol(it: Symbol, block: Block<'_>, encoding: Encoding) -> lsp::DocumentSymbol {
    let children = it.children.into_iter().map(|child| symbol(child, block, encoding));
    let children: Vec<_> = children.collect();
    lsp::DocumentSymbol {
        name: it.name,
        detail: it.detail,
        kind: kind(it.kind),
        tags: None,
        deprecated: None,
        range: block.range(it.range, encoding),
        selection_range: block.range(it.name_range, encoding),
        children: (!children.is_empty()).then_some(children),
    }
}

#[expect(deprecated, reason = "the type cannot be made without it")]
fn flatten(
    symbol: lsp::DocumentSymbol,
    within: Option<&str>,
    uri: &lsp::Url,
    row: &mut Vec<lsp::SymbolInformation>,
) {
    row.push(lsp::SymbolInformation {
        name: symbol.name.clone(),
        kind: symbol.kind,
        tags: None,
        deprecated: None,
        location: lsp::Location::new(uri.clone(), symbol.range),
        container_name: within.map(str::to_owned),
    });
    for child in symbol.children.into_iter().flatten() {
        flatten(child, Some(&symbol.name), uri, row);
    }
}

pub(super) fn kind(kind: SymbolKind) -> lsp::SymbolKind {
    match kind {
        SymbolKind::Exercise => lsp::SymbolKind::CLASS,
        SymbolKind::Cantus => lsp::SymbolKind::FUNCTION,
        SymbolKind::Voice => lsp::SymbolKind::FIELD,
        SymbolKind::Harmony => lsp::SymbolKind::ARRAY,
        SymbolKind::Setting => lsp::SymbolKind::PROPERTY,
        SymbolKind::Use => lsp::SymbolKind::MODULE,
        SymbolKind::Licence => lsp::SymbolKind::EVENT,
    }
}

/// What can be folded on more than one line.
pub(in crate::lsp) fn folding(judged: &Judged, client: &ClientProfile) -> Vec<lsp::FoldingRange> {
    let folds = |placed: &Placed| {
        let block = judged.block(placed);
        let fold = |it: Fold| fold(it.kind, block.range(it.range, client.encoding));
        block.list(&(), || folds(&placed.judged).into_iter().filter_map(fold).collect())
    };
    judged.snapshot.blocks().iter().flat_map(folds).collect()
}

fn fold(kind: FoldKind, range: lsp::Range) -> Option<lsp::FoldingRange> {
    (range.start.line < range.end.line).then(|| lsp::FoldingRange {
        start_line: range.start.line,
        end_line: range.end.line,
        kind: Some(match kind {
            FoldKind::Comment => lsp::FoldingRangeKind::Comment,
            FoldKind::Block | FoldKind::System => lsp::FoldingRangeKind::Region,
        }),
        ..lsp::FoldingRange::default()
    })
}

/// What may be meant by each position, from the narrowest outwards.
pub(in crate::lsp) fn selections(
    judged: &Judged,
    positions: &[lsp::Position],
    client: &ClientProfile,
) -> Vec<lsp::SelectionRange> {
    let encoding = client.encoding;
    let of_one = |position: &lsp::Position| {
        let offset = judged.text.offset(*position, encoding);
        let outwards = around(&judged.snapshot, offset).into_iter().rev();
        let chain =
            outwards.fold(None, |parent: Option<lsp::SelectionRange>, bytes: Range<usize>| {
                let range = judged.text.range(bytes, encoding);
                Some(lsp::SelectionRange { range, parent: parent.map(Box::new) })
            });
        let here = lsp::Range::new(*position, *position);
        chain.unwrap_or(lsp::SelectionRange { range: here, parent: None })
    };
    positions.iter().map(of_one).collect()
}

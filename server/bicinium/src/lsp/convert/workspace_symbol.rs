//! A symbol of any sheet of the workspace.
//!
//! It must not know which sheets there are.

use tower_lsp::lsp_types as lsp;

use super::outline::kind;
use crate::features::symbols::Symbol;
use crate::lsp::text::{Encoding, Text};

/// A symbol in the sheet at an address, in a block that begins at a byte.
#[expect(deprecated, reason = "the type cannot be made without it")]
pub(in crate::lsp) fn found(
    symbol: &Symbol,
    uri: &lsp::Url,
    text: &Text,
    start: usize,
    encoding: Encoding,
) -> lsp::SymbolInformation {
    let name: std::ops::Range<usize> = symbol.name_range.into();
    let range = text.range(start + name.start..start + name.end, encoding);
    lsp::SymbolInformation {
        name: symbol.name.clone(),
        kind: kind(symbol.kind),
        tags: None,
        deprecated: None,
        location: lsp::Location::new(uri.clone(), range),
        container_name: symbol.detail.clone(),
    }
}

//! The formatter's work as edits.
//!
//! It must not know how a sheet is laid out.

use tower_lsp::lsp_types::TextEdit;

use super::edit;
use crate::lsp::text::{Encoding, Text};

/// What has to be changed so that a sheet is well laid out.
pub(in crate::lsp) fn edits(text: &Text, encoding: Encoding) -> Vec<TextEdit> {
    edit::edits(text, bicinium_grammar::format::edits(&text.to_string()), encoding)
}

//! The formatter's work as edits: for a whole sheet, for some of its lines, for the rows that sound
//! together with the one that is being written.
//!
//! It must not know how a sheet is laid out.

use std::ops::Range;

use tower_lsp::lsp_types as lsp;

use super::edit;
use crate::features::layout::{self, edits_in_lines};
use crate::lsp::text::{Encoding, Text};

/// What has to be changed so that a sheet is well laid out.
pub(in crate::lsp) fn edits(text: &Text, encoding: Encoding) -> Vec<lsp::TextEdit> {
    edit::edits(text, bicinium_grammar::format::edits(&text.to_string()), encoding)
}

/// The part of it on the lines that a range touches.
pub(in crate::lsp) fn edits_in(
    text: &Text,
    range: lsp::Range,
    encoding: Encoding,
) -> Vec<lsp::TextEdit> {
    let bytes: Range<usize> = text.bytes(range, encoding);
    edit::edits(text, edits_in_lines(&text.to_string(), &bytes), encoding)
}

/// The part of it in the system at a position.
pub(in crate::lsp) fn edits_of_system(
    text: &Text,
    at: lsp::Position,
    encoding: Encoding,
) -> Vec<lsp::TextEdit> {
    let offset = text.offset(at, encoding);
    edit::edits(text, layout::edits_of_system(&text.to_string(), offset), encoding)
}

//! Changes of a text, in bytes, as edits of the client's document.
//!
//! It must not know what the changes are for.

use std::collections::HashMap;
use std::ops::Range;

use tower_lsp::lsp_types as lsp;

use crate::lsp::client::{Ability, ClientProfile};
use crate::lsp::document::Judged;
use crate::lsp::text::{Encoding, Text};

/// A stretch of bytes and what stands there instead.
pub(in crate::lsp) type Change = (Range<usize>, String);

/// The edits of one document.
pub(super) fn edits(
    text: &Text,
    changes: impl IntoIterator<Item = Change>,
    encoding: Encoding,
) -> Vec<lsp::TextEdit> {
    let edit = |(bytes, insert)| lsp::TextEdit::new(text.range(bytes, encoding), insert);
    changes.into_iter().map(edit).collect()
}

/// The same for the workspace: with the version that the edits are for, where the client takes it.
pub(in crate::lsp) fn workspace_edit(
    judged: &Judged,
    uri: &lsp::Url,
    changes: impl IntoIterator<Item = Change>,
    client: &ClientProfile,
) -> lsp::WorkspaceEdit {
    let edits = edits(&judged.text, changes, client.encoding);
    if client.can(Ability::DocumentChanges) {
        versioned(judged.version, uri, edits)
    } else {
        lsp::WorkspaceEdit::new(HashMap::from([(uri.clone(), edits)]))
    }
}

fn versioned(version: i32, uri: &lsp::Url, edits: Vec<lsp::TextEdit>) -> lsp::WorkspaceEdit {
    let document = lsp::TextDocumentEdit {
        text_document: lsp::OptionalVersionedTextDocumentIdentifier::new(uri.clone(), version),
        edits: edits.into_iter().map(lsp::OneOf::Left).collect(),
    };
    lsp::WorkspaceEdit {
        document_changes: Some(lsp::DocumentChanges::Edits(vec![document])),
        ..lsp::WorkspaceEdit::default()
    }
}

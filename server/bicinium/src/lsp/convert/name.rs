//! Places of names as locations, and new names as edits of the workspace.
//!
//! It must not know which sheets belong together.

use std::ops::Range;

use tower_lsp::lsp_types as lsp;

use crate::features::names::Name;
use crate::lsp::client::{Ability, ClientProfile};
use crate::lsp::names::{Named, Places};
use crate::lsp::sheets::Written;

/// Where places are.
pub(in crate::lsp) fn locations(places: &[Places], client: &ClientProfile) -> Vec<lsp::Location> {
    let of_sheet = |it: &Places| {
        let location = |range: &Range<usize>| {
            let range = it.sheet.text.range(range.clone(), client.encoding);
            lsp::Location::new(it.sheet.uri.clone(), range)
        };
        it.ranges.iter().map(location).collect::<Vec<_>>()
    };
    places.iter().flat_map(of_sheet).collect()
}

/// What can be given another name, and what stands there now.
pub(in crate::lsp) fn prepared(
    sheet: &Written,
    named: &Named,
    client: &ClientProfile,
) -> lsp::PrepareRenameResponse {
    let (Name::Cantus(name, _) | Name::Title(name, _)) = &named.name;
    lsp::PrepareRenameResponse::RangeWithPlaceholder {
        range: sheet.text.range(named.range.clone(), client.encoding),
        placeholder: name.clone(),
    }
}

/// The edits that put a new name in all places.
pub(in crate::lsp) fn renaming(
    places: Vec<Places>,
    new: &str,
    client: &ClientProfile,
) -> lsp::WorkspaceEdit {
    let edits = places.into_iter().map(|it| {
        let edit =
            |range| lsp::TextEdit::new(it.sheet.text.range(range, client.encoding), new.to_owned());
        let edits: Vec<_> = it.ranges.into_iter().map(edit).collect();
        (it.sheet.uri, it.sheet.version, edits)
    });
    if !client.can(Ability::DocumentChanges) {
        return lsp::WorkspaceEdit::new(edits.map(|(uri, _, edits)| (uri, edits)).collect());
    }
    let documents = edits.map(|(uri, version, edits)| lsp::TextDocumentEdit {
        text_document: lsp::OptionalVersionedTextDocumentIdentifier { uri, version },
        edits: edits.into_iter().map(lsp::OneOf::Left).collect(),
    });
    lsp::WorkspaceEdit {
        document_changes: Some(lsp::DocumentChanges::Edits(documents.collect())),
        ..lsp::WorkspaceEdit::default()
    }
}

//! A sheet as the page lists it: its exercises, why it cannot be shown, and what the editor can do.

use bicinium_analysis::finding::Level;
use bicinium_export::Piece;
use serde::Serialize;

use super::pieces;
use crate::view::edition::Edition;

/// A sheet, and what is in it.
#[derive(Serialize)]
pub(in crate::view) struct Contents {
    edition: u64,
    name: String,
    /// Why the sheet cannot be shown.
    trouble: Option<String>,
    /// Whether an editor writes what is chosen.
    editor: bool,
    exercises: Vec<Entry>,
}

/// An exercise in the list.
#[derive(Serialize)]
struct Entry {
    number: usize,
    title: String,
    faults: usize,
    cautions: usize,
}

/// The list of the exercises of a sheet that is open in an editor, or only shown.
pub(in crate::view) fn contents(edition: &Edition, has_editor: bool) -> Contents {
    let (exercises, trouble) = match &edition.sheet {
        Ok(sheet) => (pieces(sheet).map(|piece| entry(&piece)).collect(), None),
        Err(reason) => (Vec::new(), Some(reason.clone())),
    };
    let name = edition.name.clone();
    Contents { edition: edition.number, name, trouble, editor: has_editor, exercises }
}

fn entry(piece: &Piece<'_>) -> Entry {
    let count = |is_meant: fn(Level) -> bool| {
        piece.told().filter(|(_, finding)| is_meant(finding.level)).count()
    };
    Entry {
        number: piece.number,
        title: piece.title(),
        faults: count(|level| level <= Level::Fault),
        cautions: count(|level| level == Level::Caution),
    }
}

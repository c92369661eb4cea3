//! What an open place may become, as the page lists it.

use bicinium_realizer::Extent;
use serde::Serialize;

use crate::features::realizing::{Choice, Choices};

/// What an open place may become, the best first.
#[derive(Serialize)]
pub(in crate::view) struct Openings {
    edition: u64,
    /// Whether these are all.
    all: bool,
    choices: Vec<Offered>,
}

/// Something that it may become.
#[derive(Serialize)]
struct Offered {
    /// What would be written.
    text: String,
    /// What it makes there.
    detail: String,
    /// When its notes begin.
    notes: Vec<u32>,
}

/// What was found in an edition.
pub(in crate::view) fn openings(edition: u64, choices: &Choices) -> Openings {
    let offered = |choice: &Choice| Offered {
        text: choice.text.clone(),
        detail: choice.detail.clone(),
        notes: choice.notes.iter().map(|note| note.onset.ticks()).collect(),
    };
    Openings {
        edition,
        all: choices.extent == Extent::All,
        choices: choices.choices.iter().map(offered).collect(),
    }
}

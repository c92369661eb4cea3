//! A cantus definition as notes: one note a bar.

use std::sync::Arc;

use bicinium_grammar::{TextRange, ast};
use bicinium_theory::Pitch;

use super::bars;
use crate::finding::{Finding, Level};

/// A cantus as its block defines it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Defined {
    /// Its name.
    pub name: String,
    /// Where the name stands.
    pub name_range: TextRange,
    /// Its notes, one a bar.
    pub notes: Arc<[Pitch]>,
}

/// The cantus that a block defines; `None` if it has no name.
pub fn cantus(block: &ast::CantusBlock, findings: &mut Vec<Finding>) -> Option<Defined> {
    let mut notes = Vec::new();
    for (bar, number) in block.rows().iter().flat_map(ast::LineRow::bars).zip(1_u32..) {
        match note(&bar) {
            Some(pitch) => notes.push(pitch),
            None => findings.push(Finding::about_text(
                "cantus-bar",
                Level::Notation,
                bar.range(),
                format!("Bar {number} of a cantus definition holds one note, with its octave."),
            )),
        }
    }
    let name_range = block.name_range()?;
    Some(Defined { name: block.name()?, name_range, notes: notes.into() })
}

fn note(bar: &ast::Bar) -> Option<Pitch> {
    match bar.items() {
        [ast::Item { kind: ast::ItemKind::Note(note), .. }] => bars::pitch(note),
        _ => None,
    }
}

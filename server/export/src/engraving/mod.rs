//! Engraving: exercises become pages, and pages become pictures.
//!
//! exercise ─▶ `content` (what stands where) ─▶ `spacing`, `breaking` (how wide, which bars together) ─▶
//! `system` (positions) ─▶ `paging` ─▶ `display` (plain data) ─▶ `writers` (SVG, PNG, PDF). Figures,
//! numerals and marks show what the analysis says; nothing is judged here.

mod beams;
mod between;
mod breaking;
mod content;
pub mod display;
mod exercise;
pub mod font;
pub mod geometry;
mod grid;
mod heading;
mod lead;
mod marks;
mod note;
mod paging;
mod paper;
mod remarks;
mod skyline;
mod spacing;
mod staff;
mod symbol;
mod system;
mod ties;
mod voice;
mod words;
pub mod writers;

pub use paper::Paper;

pub use crate::clef::Clefs;
use crate::extra::Extra;
use crate::piece::Piece;
use display::Page;

/// How exercises are engraved.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Style {
    /// What they are engraved on.
    pub paper: Paper,
    /// What is shown beside the notes.
    pub extras: Vec<Extra>,
    /// The clefs.
    pub clefs: Clefs,
    /// Where it is told what marks stand for.
    pub remarks: Remarks,
}

/// Where it is told what the marks of findings stand for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Remarks {
    /// Below the music.
    #[default]
    Below,
    /// Not here: whoever shows the music tells it.
    Elsewhere,
}

/// The pages that the exercises fill; on a strip always one.
pub fn pages(pieces: &[Piece<'_>], style: &Style) -> Vec<Page> {
    let blocks = pieces.iter().map(|piece| exercise::blocks(piece, style)).collect();
    paging::pages(blocks, style.paper)
}

//! Exports: an exercise in the forms that other programs read, and as pictures; and back again, from the
//! scores of other programs. Knows scores and
//! readings; knows no text of a sheet, no editor and no files.

mod accidentals;
mod beaming;
mod clef;
pub mod engraving;
mod extra;
pub mod import;
mod intervals;
pub mod listing;
pub mod midi;
pub mod musicxml;
mod piece;
pub mod sound;
mod written;
mod xml;

pub use extra::Extra;
pub use piece::Piece;

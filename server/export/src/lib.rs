//! Exports: an exercise in the forms that other programs read. Knows scores and readings; knows no
//! text of a sheet, no editor and no files.

pub mod midi;
pub mod musicxml;
mod written;

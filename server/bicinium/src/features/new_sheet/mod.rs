//! Sheets that are ready to be filled: one exercise on a cantus of the repertoire, or all that an
//! assignment sets. Plain text comes out, laid out by the formatter. Must not know any file.

mod assignment;
mod blanks;
mod cantus;
mod registers;

pub use assignment::from_assignment;
pub use cantus::{Order, Side, on_cantus};

/// A name as it can stand between quotation marks on one line.
fn quotable(name: &str) -> String {
    let put = |character: char| match character {
        '"' => '\'',
        _ if character.is_control() => ' ',
        _ => character,
    };
    name.chars().map(put).collect::<String>().trim().to_owned()
}

//! What the fuzz targets share: a series of edits made from any text. It must not know what a
//! target looks for.

use std::ops::Range;

/// A text and edits to it, read from one input: pieces between lines of `%`, of which the first is
/// the text and each other one an edit, beginning with two characters for its place and length.
pub fn edits(input: &str) -> (&str, Vec<(Range<usize>, &str)>) {
    let mut pieces = input.split("%\n");
    let text = pieces.next().unwrap_or_default();
    let edit = |piece: &'_ str| {
        let mut characters = piece.chars();
        let mut next = || characters.next().map_or(0, |it| it as usize);
        let (place, length) = (next(), next());
        let at = text.len() * (place % 128) / 128;
        at..at + length % 64
    };
    let edits = pieces.map(|piece| (edit(piece), piece.get(2..).unwrap_or_default()));
    (text, edits.collect())
}

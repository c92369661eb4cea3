//! The text of an open document as the client sees it: lines, columns and incremental changes.
//!
//! The only module that calls the rope. Every position that a client may send is mapped to a
//! place inside the text, however far off it is. It must not know what the text means.

#[cfg(test)]
mod tests;

use std::fmt;
use std::ops::Range;

use ropey::{Rope, RopeSlice};
use tower_lsp::lsp_types as lsp;

/// The unit in which a client counts columns.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Encoding {
    /// Bytes.
    Utf8,
    /// UTF-16 code units, the protocol's default.
    Utf16,
    /// Characters.
    Utf32,
}

/// A document's text. A copy costs next to nothing.
#[derive(Clone, Default)]
pub(super) struct Text {
    rope: Rope,
}

impl From<&str> for Text {
    fn from(text: &str) -> Self {
        Text { rope: Rope::from_str(text) }
    }
}

impl PartialEq<str> for Text {
    fn eq(&self, other: &str) -> bool {
        self.rope == *other
    }
}

impl fmt::Display for Text {
    fn fmt(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        self.rope.chunks().try_for_each(|chunk| formatter.write_str(chunk))
    }
}

impl Text {
    /// Puts `insert` in the place of `range`, or of the whole text if there is none, and returns
    /// the bytes that were replaced.
    pub(super) fn change(
        &mut self,
        range: Option<lsp::Range>,
        insert: &str,
        encoding: Encoding,
    ) -> Range<usize> {
        let replaced = range.map_or(0..self.rope.len_bytes(), |range| self.bytes(range, encoding));
        let start = self.rope.byte_to_char(replaced.start);
        self.rope.remove(start..self.rope.byte_to_char(replaced.end));
        self.rope.insert(start, insert);
        replaced
    }

    /// The bytes that a client's range covers; a reversed range is read the other way round.
    pub(super) fn bytes(&self, range: lsp::Range, encoding: Encoding) -> Range<usize> {
        let start = self.offset(range.start, encoding);
        let end = self.offset(range.end, encoding);
        start.min(end)..start.max(end)
    }

    /// The byte at a client's position: never inside a character, at most at the end of the line
    /// that is meant, at most at the end of the text.
    pub(super) fn offset(&self, position: lsp::Position, encoding: Encoding) -> usize {
        let line = index(position.line);
        if line >= self.rope.len_lines() {
            return self.rope.len_bytes();
        }
        let content = content(self.rope.line(line));
        self.rope.line_to_byte(line) + column_to_byte(content, index(position.character), encoding)
    }

    /// The range that a client shows for these bytes.
    pub(super) fn range(&self, bytes: Range<usize>, encoding: Encoding) -> lsp::Range {
        lsp::Range::new(self.position(bytes.start, encoding), self.position(bytes.end, encoding))
    }

    /// The position that a client shows for a byte. A byte inside a character stands for its
    /// first one, a byte beyond the text for its end.
    pub(super) fn position(&self, byte: usize, encoding: Encoding) -> lsp::Position {
        let byte = byte.min(self.rope.len_bytes());
        let line = self.rope.byte_to_line(byte);
        let start = self.rope.line_to_byte(line);
        let column = self.column_in_chunk(start, byte, encoding).unwrap_or_else(|| {
            let content = content(self.rope.line(line));
            byte_to_column(content, (byte - start).min(content.len_bytes()), encoding)
        });
        lsp::Position::new(count(line), count(column))
    }

    /// The column of a byte in a line that begins at `start`, if the rope holds all between them in one
    /// piece and the byte is at a character.
    fn column_in_chunk(&self, start: usize, byte: usize, encoding: Encoding) -> Option<usize> {
        let (chunk, chunk_start, ..) = self.rope.chunk_at_byte(byte);
        let before = chunk.get(start.checked_sub(chunk_start)?..byte - chunk_start)?;
        let before = before.strip_suffix('\r').unwrap_or(before);
        Some(match encoding {
            Encoding::Utf16 if !before.is_ascii() => before.encode_utf16().count(),
            Encoding::Utf32 if !before.is_ascii() => before.chars().count(),
            _ => before.len(),
        })
    }
}

/// A line without what ends it.
fn content(line: RopeSlice) -> RopeSlice {
    let ending = match (line.len_bytes(), line.chars_at(line.len_chars()).prev()) {
        (2.., Some('\n')) if line.byte(line.len_bytes() - 2) == b'\r' => 2,
        (_, Some('\n' | '\r')) => 1,
        _ => 0,
    };
    line.slice(..line.len_chars() - ending)
}

fn column_to_byte(content: RopeSlice, column: usize, encoding: Encoding) -> usize {
    let character = match encoding {
        Encoding::Utf8 => content.byte_to_char(column.min(content.len_bytes())),
        Encoding::Utf16 => content.utf16_cu_to_char(column.min(content.len_utf16_cu())),
        Encoding::Utf32 => column.min(content.len_chars()),
    };
    content.char_to_byte(character)
}

fn byte_to_column(content: RopeSlice, byte: usize, encoding: Encoding) -> usize {
    let character = content.byte_to_char(byte);
    match encoding {
        Encoding::Utf8 => content.char_to_byte(character),
        Encoding::Utf16 => content.char_to_utf16_cu(character),
        Encoding::Utf32 => character,
    }
}

fn index(number: u32) -> usize {
    usize::try_from(number).unwrap_or(usize::MAX)
}

fn count(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}

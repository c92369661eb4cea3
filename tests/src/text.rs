//! A document as an editor holds it: a string, and positions counted one character after the
//! other.
//!
//! It must not be clever: the server's own way of counting is held against it.

use std::ops::Range;

use serde_json::{Value, json};

/// The unit of columns.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Encoding {
    /// Bytes.
    Utf8,
    /// UTF-16 code units.
    Utf16,
    /// Characters.
    Utf32,
}

impl Encoding {
    /// All encodings.
    pub const ALL: [Encoding; 3] = [Encoding::Utf8, Encoding::Utf16, Encoding::Utf32];

    /// The name that the protocol gives it.
    pub fn name(self) -> &'static str {
        match self {
            Encoding::Utf8 => "utf-8",
            Encoding::Utf16 => "utf-16",
            Encoding::Utf32 => "utf-32",
        }
    }

    fn width(self, character: char) -> usize {
        match self {
            Encoding::Utf8 => character.len_utf8(),
            Encoding::Utf16 => character.len_utf16(),
            Encoding::Utf32 => 1,
        }
    }
}

/// A text with lines that end in a line feed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ScreenText {
    /// The text itself.
    pub text: String,
    /// How its columns are counted.
    pub encoding: Encoding,
}

impl ScreenText {
    /// A text whose columns are counted like this.
    pub fn new(text: &str, encoding: Encoding) -> Self {
        ScreenText { text: text.to_owned(), encoding }
    }

    /// The position of a byte, as the protocol writes it.
    pub fn position(&self, byte: usize) -> Value {
        let before = &self.text[..byte];
        let line = before.matches('\n').count();
        let start = before.rfind('\n').map_or(0, |at| at + 1);
        let column: usize = before[start..].chars().map(|it| self.encoding.width(it)).sum();
        json!({"line": line, "character": column})
    }

    /// The range of these bytes, as the protocol writes it.
    pub fn range(&self, bytes: &Range<usize>) -> Value {
        json!({"start": self.position(bytes.start), "end": self.position(bytes.end)})
    }

    /// The bytes of a range that the server names.
    ///
    /// # Panics
    /// When there is no such place in the text.
    pub fn bytes(&self, range: &Value) -> Range<usize> {
        self.byte(&range["start"])..self.byte(&range["end"])
    }

    /// Replaces bytes and returns the change as the protocol writes it.
    pub fn change(&mut self, bytes: &Range<usize>, insert: &str) -> Value {
        let range = self.range(bytes);
        self.text.replace_range(bytes.clone(), insert);
        json!({"range": range, "text": insert})
    }

    /// Applies edits that the server has sent; they must not overlap.
    ///
    /// # Panics
    /// When an edit is for no place in the text, or edits overlap.
    pub fn apply(&mut self, edits: &Value) {
        let edits = edits.as_array().expect("edits are a list");
        let mut edits: Vec<_> = edits.iter().map(|it| (self.bytes(&it["range"]), it)).collect();
        edits.sort_by_key(|(bytes, _)| bytes.start);
        assert!(edits.is_sorted_by(|(a, _), (b, _)| a.end <= b.start), "edits overlap");
        for (bytes, edit) in edits.into_iter().rev() {
            let insert = edit["newText"].as_str().expect("an edit has a text");
            self.text.replace_range(bytes, insert);
        }
    }

    fn byte(&self, position: &Value) -> usize {
        let mut ends = self.text.char_indices().map(|(at, _)| at).chain([self.text.len()]);
        let at = ends.find(|&byte| self.position(byte) == *position);
        at.unwrap_or_else(|| panic!("there is no {position} in {:?}", self.text))
    }
}

//! A text cut into lines, and places in it as lines and columns. It must not know what the text
//! says.

use std::ops::Range;

/// A text and where its lines begin. A line ends with a line feed, a carriage return, or both.
#[derive(Clone, Debug)]
pub(super) struct Lines<'t> {
    text: &'t str,
    starts: Vec<usize>,
}

/// A place between two characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Position {
    /// The line, counted from 0.
    pub(super) line: usize,
    /// The UTF-16 code units before it in its line.
    pub(super) utf16: usize,
    /// The characters before it in its line.
    pub(super) characters: usize,
}

impl<'t> Lines<'t> {
    /// Finds the lines of a text.
    pub(super) fn new(text: &'t str) -> Self {
        let bytes = text.as_bytes();
        let ends = |at: usize| match bytes[at] {
            b'\n' => true,
            b'\r' => bytes.get(at + 1) != Some(&b'\n'),
            _ => false,
        };
        let starts = (0..bytes.len()).filter(|at| ends(*at)).map(|at| at + 1);
        Self { text, starts: std::iter::once(0).chain(starts).collect() }
    }

    /// The numbers of all lines, counted from 0; what follows the last line end only if it says
    /// something.
    pub(super) fn numbers(&self) -> Range<usize> {
        let is_empty = self.starts.last() == Some(&self.text.len());
        0..self.starts.len() - usize::from(is_empty)
    }

    /// The number of the line that a byte lies in, counted from 0.
    pub(super) fn line_at(&self, offset: usize) -> usize {
        self.starts.partition_point(|start| *start <= offset).saturating_sub(1)
    }

    /// The bytes of a line without what ends it; nothing at the end of the text for a line that is
    /// not there.
    pub(super) fn range(&self, line: usize) -> Range<usize> {
        let Some(start) = self.starts.get(line).copied() else {
            return self.text.len()..self.text.len();
        };
        let end = self.starts.get(line + 1).copied().unwrap_or(self.text.len());
        start..start + self.text[start..end].trim_end_matches(['\r', '\n']).len()
    }

    /// A line without what ends it.
    pub(super) fn text(&self, line: usize) -> &'t str {
        &self.text[self.range(line)]
    }

    /// The place of a byte: never inside a character, never behind the end of a line.
    pub(super) fn position(&self, offset: usize) -> Position {
        let line = self.line_at(offset);
        let before = self.before(line, offset);
        Position { line, utf16: before.encode_utf16().count(), characters: before.chars().count() }
    }

    /// What stands in a line before a byte.
    pub(super) fn before(&self, line: usize, offset: usize) -> &'t str {
        let text = self.text(line);
        let wanted = offset.saturating_sub(self.range(line).start).min(text.len());
        let end = (0..=wanted).rev().find(|end| text.is_char_boundary(*end));
        &text[..end.unwrap_or(0)]
    }
}

#[cfg(test)]
mod tests {
    use super::{Lines, Position};

    #[test]
    fn every_kind_of_line_end_ends_a_line() {
        let lines = Lines::new("a\r\nb\rc\nd");
        let texts: Vec<_> = (0..5).map(|line| lines.text(line)).collect();
        assert_eq!(texts, ["a", "b", "c", "d", ""]);
        assert_eq!(lines.line_at(2), 0);
        assert_eq!(lines.line_at(3), 1);
        assert_eq!(lines.line_at(100), 3);
    }

    #[test]
    fn columns_count_what_they_say() {
        let lines = Lines::new("x\n𝄫é|");
        let at = |offset| lines.position(offset);
        assert_eq!(at(6), Position { line: 1, utf16: 2, characters: 1 });
        assert_eq!(at(8), Position { line: 1, utf16: 3, characters: 2 });
        assert_eq!(at(4), Position { line: 1, utf16: 0, characters: 0 });
        assert_eq!(at(99), Position { line: 1, utf16: 4, characters: 3 });
    }

    #[test]
    fn an_empty_text_has_one_line() {
        assert_eq!(Lines::new("").position(3), Position { line: 0, utf16: 0, characters: 0 });
    }
}

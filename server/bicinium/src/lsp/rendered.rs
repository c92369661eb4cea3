//! The diagnostics of a block as they are sent: text with gaps for the numbers of lines, so that a
//! block that has only moved is written again without being made again.
//!
//! It must not know what a diagnostic says.

use std::hash::{Hash, Hasher};
use std::io::Write;

use rustc_hash::FxHasher;
use tower_lsp::lsp_types::Diagnostic;

/// Where a position names its line. A quotation mark inside a text is written with a backslash
/// before it, so this stands nowhere else.
const LINE: &str = "\"line\":";

/// Diagnostics with lines counted from some place, ready to be put into a message.
#[derive(Debug, Default, PartialEq, Eq)]
pub(super) struct Rendered {
    text: String,
    /// Where in the text the numbers of lines belong, and which.
    lines: Vec<(usize, u64)>,
    /// A number that stands for all of it.
    fingerprint: u64,
}

impl Rendered {
    /// Renders diagnostics.
    pub(super) fn new(diagnostics: &[Diagnostic]) -> Self {
        let each = diagnostics.iter().map(|it| serde_json::to_string(it).unwrap_or_default());
        Self::of(&each.collect::<Vec<_>>().join(","))
    }

    fn of(whole: &str) -> Self {
        let mut rendered = Self::default();
        let mut rest = whole;
        while let Some(at) = rest.find(LINE) {
            let (before, number) = rest.split_at(at + LINE.len());
            let digits = number.find(|it: char| !it.is_ascii_digit()).unwrap_or(number.len());
            rendered.text.push_str(before);
            rendered.lines.push((rendered.text.len(), number[..digits].parse().unwrap_or(0)));
            rest = &number[digits..];
        }
        rendered.text.push_str(rest);
        let mut hasher = FxHasher::default();
        (&rendered.text, &rendered.lines).hash(&mut hasher);
        rendered.fingerprint = hasher.finish();
        rendered
    }

    /// A number that stands for what they say.
    pub(super) fn fingerprint(&self) -> u64 {
        self.fingerprint
    }

    /// Writes them for a block that begins at a line.
    pub(super) fn write(&self, line: usize, output: &mut Vec<u8>) {
        let mut done = 0;
        for (at, number) in &self.lines {
            output.extend_from_slice(&self.text.as_bytes()[done..*at]);
            // Writing to memory does not fail.
            let _ = write!(output, "{}", number + line as u64);
            done = *at;
        }
        output.extend_from_slice(&self.text.as_bytes()[done..]);
    }
}

#[cfg(test)]
mod tests {
    use tower_lsp::lsp_types::{Diagnostic, Position, Range};

    use super::Rendered;

    fn diagnostic(line: u32) -> Diagnostic {
        let range = Range::new(Position::new(line, 3), Position::new(line + 1, 0));
        Diagnostic::new_simple(range, "say \"line\":1 and \\\"line\":2, \u{266F}".to_owned())
    }

    #[test]
    fn a_block_that_has_moved_is_written_as_if_made_anew() {
        let rendered = Rendered::new(&[diagnostic(0), diagnostic(7)]);
        for moved in [0, 1, 99] {
            let mut written = Vec::new();
            rendered.write(moved, &mut written);
            let moved = u32::try_from(moved).unwrap();
            let anew = [diagnostic(moved), diagnostic(7 + moved)];
            let anew = serde_json::to_string(&anew).unwrap();
            assert_eq!(format!("[{}]", String::from_utf8(written).unwrap()), anew);
        }
    }
}

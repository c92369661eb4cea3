//! Formatting twice is formatting once, and its edits lead to the formatted text.

use bicinium_grammar::format;

/// Formats a text.
pub fn attempt(text: &str) {
    let formatted = format(text);
    assert_eq!(format(&formatted), formatted);
}

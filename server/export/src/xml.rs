//! Text as XML 1.0 admits it. Knows no elements.

use std::borrow::Cow;

/// The text with blanks in the place of characters that XML 1.0 does not admit.
pub(crate) fn lawful(text: &str) -> Cow<'_, str> {
    let is_lawful = |c: char| !matches!(c, '\0'..='\u{8}' | '\u{b}' | '\u{c}' | '\u{e}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}');
    if text.chars().all(is_lawful) {
        return Cow::Borrowed(text);
    }
    text.chars().map(|c| if is_lawful(c) { c } else { ' ' }).collect()
}

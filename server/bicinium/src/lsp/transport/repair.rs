//! Makes readable what some editors send while a character outside the basic plane is being typed
//! or cut in two: bytes that are not UTF-8, and escapes for half a surrogate pair.
//!
//! Each half becomes one U+FFFD, which is as long in UTF-16 as what it stands for, so that later
//! positions keep their meaning. It must not know JSON beyond its escapes.

const REPLACEMENT: &str = "\\ufffd";
const ESCAPE_LENGTH: usize = 6;

/// The text of `body` with everything replaced that no string can hold.
pub(super) fn repaired(body: &[u8]) -> String {
    let text = String::from_utf8_lossy(body);
    let mut repaired = String::with_capacity(text.len());
    let mut rest = &*text;
    while let Some(at) = rest.find('\\') {
        repaired.push_str(&rest[..at]);
        let (length, replacement) = escape(&rest[at..]);
        repaired.push_str(replacement.unwrap_or(&rest[at..at + length]));
        rest = &rest[at + length..];
    }
    repaired.push_str(rest);
    repaired
}

/// The length in bytes of the escape that `text` begins with, and what to put in its place.
fn escape(text: &str) -> (usize, Option<&'static str>) {
    match unit(text) {
        Some(0xD800..0xDC00) if is_low_half(text) => (2 * ESCAPE_LENGTH, None),
        Some(0xD800..0xE000) => (ESCAPE_LENGTH, Some(REPLACEMENT)),
        Some(_) => (ESCAPE_LENGTH, None),
        None => (1 + text[1..].chars().next().map_or(0, char::len_utf8), None),
    }
}

fn is_low_half(text: &str) -> bool {
    text.get(ESCAPE_LENGTH..).and_then(unit).is_some_and(|unit| (0xDC00..0xE000).contains(&unit))
}

/// The UTF-16 code unit that `text` begins with, if it begins with such an escape.
fn unit(text: &str) -> Option<u16> {
    let digits = text.strip_prefix("\\u")?.get(..4)?;
    u16::from_str_radix(digits, 16).ok()
}

#[cfg(test)]
mod tests {
    use super::repaired;

    #[test]
    fn half_a_surrogate_pair_becomes_one_replacement_character() {
        assert_eq!(repaired(br#""a\ud834b""#), r#""a\ufffdb""#);
        assert_eq!(repaired(br#""a\udd2ab""#), r#""a\ufffdb""#);
        assert_eq!(repaired(br#""\ud834\ud834\udd2a""#), r#""\ufffd\ud834\udd2a""#);
    }

    #[test]
    fn whole_pairs_and_other_escapes_stay() {
        for text in
            [r#""\ud834\udd2a""#, r#""\\ud834""#, r#""\n\"\u266f\\""#, "\"é\\", "\"\\é", "\\u12"]
        {
            assert_eq!(repaired(text.as_bytes()), text);
        }
    }

    #[test]
    fn bytes_outside_utf8_are_replaced() {
        assert_eq!(repaired(b"\"a\xFFb\""), "\"a\u{FFFD}b\"");
    }
}

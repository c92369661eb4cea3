//! Compares the rope with the plainest possible reading of the protocol: a string, gone through
//! character by character.

use std::ops::Range;

use proptest::prelude::*;
use tower_lsp::lsp_types as lsp;

use super::{Encoding, Text};

const ENCODINGS: [Encoding; 3] = [Encoding::Utf8, Encoding::Utf16, Encoding::Utf32];

/// Characters of every width, everything that ends a line here, and what does elsewhere.
const PIECES: [&str; 13] =
    ["a", "é", "♯", "𝄪", "\n", "\r", "\r\n", " ", "\u{2028}", "\u{85}", "\u{b}", "\t", "\0"];

fn width(character: char, encoding: Encoding) -> usize {
    match encoding {
        Encoding::Utf8 => character.len_utf8(),
        Encoding::Utf16 => character.len_utf16(),
        Encoding::Utf32 => 1,
    }
}

/// The content of every line: from its first byte to what ends it.
fn lines(text: &str) -> Vec<Range<usize>> {
    let bytes = text.as_bytes();
    let (mut lines, mut start, mut at) = (Vec::new(), 0, 0);
    while at < bytes.len() {
        let ending = match (bytes[at], bytes.get(at + 1)) {
            (b'\r', Some(b'\n')) => 2,
            (b'\r' | b'\n', _) => 1,
            _ => 0,
        };
        if ending > 0 {
            lines.push(start..at);
            start = at + ending;
        }
        at += ending.max(1);
    }
    lines.push(start..text.len());
    lines
}

fn offset(text: &str, position: lsp::Position, encoding: Encoding) -> usize {
    let Some(line) = lines(text).into_iter().nth(position.line as usize) else {
        return text.len();
    };
    let mut column = 0;
    for (at, character) in text[line.clone()].char_indices() {
        column += width(character, encoding);
        if column > position.character as usize {
            return line.start + at;
        }
    }
    line.end
}

fn position(text: &str, byte: usize, encoding: Encoding) -> lsp::Position {
    let lines = lines(text);
    let number = lines.iter().rposition(|line| line.start <= byte).unwrap();
    let before = &text[lines[number].start..byte.min(lines[number].end)];
    let column: usize = before.chars().map(|character| width(character, encoding)).sum();
    lsp::Position::new(number.try_into().unwrap(), column.try_into().unwrap())
}

fn any_text() -> impl Strategy<Value = String> {
    text_of(0..40)
}

/// Long enough to be kept in several parts.
fn long_text() -> impl Strategy<Value = String> {
    text_of(1500..3000)
}

fn text_of(length: Range<usize>) -> impl Strategy<Value = String> {
    proptest::collection::vec(proptest::sample::select(&PIECES[..]), length)
        .prop_map(|pieces| pieces.concat())
}

fn any_position() -> impl Strategy<Value = lsp::Position> {
    let number = || prop_oneof![9 => 0_u32..12, 2 => 0_u32..800, 1 => Just(u32::MAX)];
    (number(), number()).prop_map(|(line, character)| lsp::Position::new(line, character))
}

fn any_change() -> impl Strategy<Value = (Option<lsp::Range>, String)> {
    let range = (any_position(), any_position()).prop_map(|(start, end)| lsp::Range { start, end });
    (proptest::option::weighted(0.9, range), any_text())
}

proptest! {
    #[test]
    fn every_position_falls_where_the_protocol_says(
        text in prop_oneof![any_text(), long_text()],
        at in any_position(),
    ) {
        for encoding in ENCODINGS {
            prop_assert_eq!(Text::from(&*text).offset(at, encoding), offset(&text, at, encoding));
        }
    }

    #[test]
    fn every_byte_has_the_position_that_the_protocol_says(text in any_text()) {
        for encoding in ENCODINGS {
            for (byte, _) in text.char_indices().chain([(text.len(), ' ')]) {
                let found = Text::from(&*text).position(byte, encoding);
                prop_assert_eq!(found, position(&text, byte, encoding), "byte {}", byte);
            }
        }
    }

    #[test]
    fn a_byte_that_begins_no_character_counts_as_the_one_before(text in any_text(), byte in 0_usize..200) {
        let floor = (0..=byte.min(text.len())).rev().find(|&at| text.is_char_boundary(at)).unwrap();
        for encoding in ENCODINGS {
            let text = Text::from(&*text);
            prop_assert_eq!(text.position(byte, encoding), text.position(floor, encoding));
        }
    }

    #[test]
    fn changes_leave_what_the_client_has(
        text in prop_oneof![any_text(), long_text()],
        changes in proptest::collection::vec(any_change(), 1..8),
        encoding in proptest::sample::select(&ENCODINGS[..]),
    ) {
        let (mut ours, mut theirs) = (Text::from(&*text), text);
        for (range, insert) in changes {
            let ends = range.map_or([0, theirs.len()], |range| {
                [range.start, range.end].map(|end| offset(&theirs, end, encoding))
            });
            let expected = ends[0].min(ends[1])..ends[0].max(ends[1]);
            prop_assert_eq!(ours.change(range, &insert, encoding), expected.clone());
            theirs.replace_range(expected, &insert);
            prop_assert_eq!(ours.to_string(), &*theirs);
        }
    }
}

#[test]
fn a_column_inside_a_wide_character_is_its_beginning() {
    let text = Text::from("G𝄪4");
    let column = |character| lsp::Position { line: 0, character };
    assert_eq!(text.offset(column(2), Encoding::Utf16), 1);
    assert_eq!(text.offset(column(3), Encoding::Utf16), 5);
    assert_eq!(text.offset(column(4), Encoding::Utf8), 1);
    assert_eq!(text.offset(column(2), Encoding::Utf32), 5);
}

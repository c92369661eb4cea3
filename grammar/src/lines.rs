//! Text cut into lines and into blocks. A line keeps its ending. A block begins with a line whose
//! first word opens one; all before the first such line is the preamble, which may be empty. This
//! module must not know what else stands in a line.

use crate::token::{Lexeme, Token, lexemes};
use crate::words::{OPENERS, find};

/// The lines of `text`, each with the characters that end it.
pub(crate) fn lines(text: &str) -> impl Iterator<Item = &str> {
    let mut rest = text;
    std::iter::from_fn(move || {
        let (line, after) = rest.split_at(line_length(rest));
        rest = after;
        (!line.is_empty()).then_some(line)
    })
}

/// The blocks of `text`; the first one is the preamble.
pub(crate) fn blocks(text: &str) -> Vec<&str> {
    let mut starts = vec![0];
    let mut offset = 0;
    for line in lines(text) {
        if opener(line).is_some() {
            starts.push(offset);
        }
        offset += line.len();
    }
    let ends = starts.iter().copied().skip(1).chain([text.len()]);
    starts.iter().zip(ends).map(|(start, end)| &text[*start..end]).collect()
}

/// The word with which `line` opens a block.
pub(crate) fn opener(line: &str) -> Option<&'static str> {
    find(first_run(line), OPENERS)
}

/// The characters at the beginning of `line` that belong together, after white space.
fn first_run(line: &str) -> &str {
    let mut run = None;
    for Lexeme { token, range } in lexemes(line) {
        match run {
            None if token == Token::Blank => {}
            None if token.joins() => run = Some(range),
            Some(ref mut run) if token.joins() => run.end = range.end,
            _ => break,
        }
    }
    run.map_or("", |run| &line[run])
}

fn line_length(text: &str) -> usize {
    let Some(end) = text.find(['\n', '\r']) else { return text.len() };
    if text[end..].starts_with("\r\n") { end + 2 } else { end + 1 }
}

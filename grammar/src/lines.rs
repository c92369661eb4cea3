//! Text cut into lines and into blocks. A line keeps its ending. A block begins with a line whose
//! first word opens one, if only by a misspelling; all before the first such line is the preamble,
//! which may be empty. This module must not know what else stands in a line.

use crate::token::{Lexeme, Token, lexemes};
use crate::words::{ALL, OPENERS, find, misspelt_opener};

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

/// The word with which the first line of `text` opens a block. A misspelt one opens it as well, lest
/// the lines after it be taken for another block's; but a line with a barline is then rather a row.
pub(crate) fn opener(text: &str) -> Option<&'static str> {
    let run = first_run(text);
    match find(run, ALL) {
        Some(word) => Some(word).filter(|word| OPENERS.contains(word)),
        None => misspelt_opener(run).filter(|_| !has_barline(text)),
    }
}

/// Whether there is a barline on the first line of `text`.
fn has_barline(text: &str) -> bool {
    let mut line = lexemes(text).take_while(|lexeme| lexeme.token != Token::Newline);
    line.any(|lexeme| lexeme.token == Token::Barline)
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

/// The characters that end a line; none if it is the last one.
pub(crate) fn end_of(line: &str) -> &str {
    &line[line.trim_end_matches(['\n', '\r']).len()..]
}

fn line_length(text: &str) -> usize {
    let Some(end) = text.find(['\n', '\r']) else { return text.len() };
    if text[end..].starts_with("\r\n") { end + 2 } else { end + 1 }
}

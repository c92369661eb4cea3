//! What is done with lines and values that are not what was expected: as much of them is read as
//! can be, and each is reported once. This file must not know how a good line is read.

use rowan::{TextRange, TextSize};

use super::cursor::Parser;
use super::{Line, after_first_word};
use crate::block::BlockKind;
use crate::problem::{Problem, ProblemKind, one_of, shown};
use crate::syntax::SyntaxKind;
use crate::token::Token;
use crate::words::{OPENERS, REGISTERS, SETTINGS, misspelling_of, misspelt_opener, suggestions};

/// Reads a line whose first word is not one of the notation.
pub(super) fn unknown_line(parser: &mut Parser, kind: BlockKind) {
    if parser.first_run().is_empty() {
        return nameless_line(parser, kind);
    }
    let candidates = candidates(kind, parser);
    match line_meant(parser, kind, &candidates) {
        Some(line) => misspelt_line(parser, line, &candidates),
        None => unreadable_line(parser, &candidates),
    }
}

/// The problem of a line that cannot stand in this block; `range` is its first word.
pub(super) fn misplaced(line: Line, kind: BlockKind, range: TextRange) -> Problem {
    let message = match kind {
        BlockKind::Preamble => {
            "This line belongs in an exercise or a cantus; \
             expected `exercise` or `cantus` on a line before it."
        }
        BlockKind::Cantus => {
            "A cantus has only lines that begin with `line` or set something; \
             expected `exercise` on a line before this one."
        }
        BlockKind::Exercise => {
            "A row of an exercise begins with the voice that sings it; \
             expected a voice such as `soprano`."
        }
    };
    let problem = Problem::new(ProblemKind::MisplacedLine, range, message);
    match (line, kind) {
        (Line::VoiceRow, BlockKind::Cantus) => problem.write("line"),
        _ => problem,
    }
}

/// The problem of a value that is missing after the word at `head`.
pub(super) fn missing(head: TextRange, what: &str, example: &str) -> Problem {
    let message = format!("Expected {what} after this word, as in `{example}`.");
    Problem::new(ProblemKind::ValueExpected, head, message)
}

/// Reads a value in quotation marks, or what should have been one.
pub(super) fn quoted_text(parser: &mut Parser, what: &str) {
    match parser.peek() {
        Some(Token::Text) => {
            parser.bump(SyntaxKind::Text);
        }
        Some(Token::UnclosedText) => unclosed_text(parser),
        Some(Token::CurlyText) => curly_text(parser),
        _ => unquoted_text(parser, what),
    }
}

fn unclosed_text(parser: &mut Parser) {
    let length = TextSize::of(parser.text().trim_end());
    let range = TextRange::at(parser.bump(SyntaxKind::Text).start(), length);
    let message = "The closing quotation mark is missing; expected `\"` before the line ends.";
    let problem = Problem::new(ProblemKind::UnclosedText, range, message);
    let end = TextRange::empty(range.end());
    parser.report(problem.mend("Close the quotation marks".to_owned(), end, "\"".to_owned()));
}

fn curly_text(parser: &mut Parser) {
    let inside = parser.text().trim_matches(['“', '”', '„', '«', '»']);
    let text = format!("\"{inside}\"");
    let range = parser.bump(SyntaxKind::Text);
    let message = "Expected plain quotation marks, as in `\"…\"`.";
    parser.report(Problem::new(ProblemKind::QuotesMissing, range, message).write(text));
}

fn unquoted_text(parser: &mut Parser, what: &str) {
    let (text, _) = parser.rest();
    let quoted = format!("\"{}\"", text.replace(['"', '“', '”', '„', '«', '»'], "").trim());
    let range = parser.bump_rest(SyntaxKind::Stray);
    let message = format!("Expected {what} in quotation marks, but {} follows.", shown(text));
    parser.report(Problem::new(ProblemKind::QuotesMissing, range, message).write(quoted));
}

/// The words with which a line could begin here; with a barline it can only be a row.
fn candidates(kind: BlockKind, parser: &Parser) -> Vec<&'static str> {
    let (rows, licence): (Vec<_>, &[&str]) = match kind {
        BlockKind::Preamble => (Vec::new(), &[]),
        BlockKind::Cantus => (vec!["line"], &[]),
        BlockKind::Exercise => ([REGISTERS, &["harmony"]].concat(), &["allow"]),
    };
    if parser.has_barline() && !rows.is_empty() {
        return rows;
    }
    [&rows, SETTINGS, licence, OPENERS].concat()
}

/// What sort of line was meant, if the rest of it can be read as such.
fn line_meant(parser: &Parser, kind: BlockKind, candidates: &[&'static str]) -> Option<Line> {
    let text = parser.first_run();
    let word = misspelling_of(text, candidates).filter(|word| !OPENERS.contains(word));
    if parser.has_barline() {
        return word.map(Line::of).or_else(|| row_of(kind));
    }
    misspelt_opener(text).or(word).map(Line::of)
}

/// The sort of row that a line with barlines is in a block of the given kind.
fn row_of(kind: BlockKind) -> Option<Line> {
    match kind {
        BlockKind::Preamble => None,
        BlockKind::Cantus => Some(Line::CantusRow),
        BlockKind::Exercise => Some(Line::VoiceRow),
    }
}

fn misspelt_line(parser: &mut Parser, line: Line, candidates: &[&'static str]) {
    parser.start(line.node());
    parser.skip_blanks();
    let text = parser.first_run();
    let range = parser.bump_run(SyntaxKind::Misspelt);
    parser.report(unknown_word(text, range, candidates));
    after_first_word(parser, line, range);
}

fn unreadable_line(parser: &mut Parser, candidates: &[&'static str]) {
    parser.start(SyntaxKind::UnknownLine);
    parser.skip_blanks();
    let text = parser.first_run();
    let range = parser.bump_run(SyntaxKind::Stray);
    parser.report(unknown_word(text, range, candidates));
    parser.skip_blanks();
    if !parser.at_end() {
        parser.bump_rest(SyntaxKind::Stray);
    }
}

fn unknown_word(text: &str, range: TextRange, candidates: &[&'static str]) -> Problem {
    let meant = suggestions(text, candidates);
    let expected = one_of(if meant.is_empty() { candidates } else { &meant });
    let message = format!("No line begins with {} here; expected {expected}.", shown(text));
    Problem::new(ProblemKind::UnknownWord, range, message).write_any(meant)
}

/// Reads a line that does not begin with a word.
fn nameless_line(parser: &mut Parser, kind: BlockKind) {
    let row = row_of(kind).filter(|_| parser.has_barline());
    parser.start(row.map_or(SyntaxKind::UnknownLine, Line::node));
    parser.skip_blanks();
    match row {
        Some(line) if parser.peek() == Some(Token::Barline) => {
            parser.report(nameless_row(line, parser.range()));
            let head = TextRange::empty(parser.range().start());
            after_first_word(parser, line, head);
        }
        _ => {
            let (text, range) = parser.rest();
            parser.bump_rest(SyntaxKind::Stray);
            let message = format!("A line begins with a word, not with {}.", shown(text));
            parser.report(Problem::new(ProblemKind::StrayText, range, message));
        }
    }
}

fn nameless_row(line: Line, barline: TextRange) -> Problem {
    let before = TextRange::empty(barline.start());
    let message = match line {
        Line::CantusRow => "Expected `line` before the first barline.",
        _ => "Expected the name of a voice, such as `soprano`, before the first barline.",
    };
    let problem = Problem::new(ProblemKind::RowNameMissing, barline, message);
    match line {
        Line::CantusRow => problem.write_at(before, "line "),
        _ => problem,
    }
}

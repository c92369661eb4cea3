//! Bars and the groups within them. This file counts what divides a share; it must not know how a
//! note or a numeral is written, nor how long anything is.

use rowan::TextRange;

use super::cursor::Parser;
use super::notes::{self, Latest};
use super::numerals;
use crate::problem::{Problem, ProblemKind};
use crate::syntax::SyntaxKind;
use crate::token::Token;

/// What the bars of a row are filled with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Content {
    /// Notes of a voice.
    Notes,
    /// Roman numerals.
    Numerals,
}

/// Groups may stand in groups this deep.
const DEEPEST: usize = 8;

/// Reads bars up to the end of the line, beginning at the first barline or right after it.
pub(super) fn bars(parser: &mut Parser, content: Content) {
    let mut latest = Latest::default();
    if parser.peek() == Some(Token::Barline) {
        parser.bump(SyntaxKind::Barline);
    }
    while !parser.at_end() {
        bar(parser, content, &mut latest);
        if parser.peek() == Some(Token::Barline) {
            parser.bump(SyntaxKind::Barline);
        }
    }
}

/// A group whose end has not come yet.
struct OpenGroup {
    parenthesis: TextRange,
    items: usize,
}

fn bar(parser: &mut Parser, content: Content, latest: &mut Latest) {
    parser.start(SyntaxKind::Bar);
    let mut open = Vec::new();
    let mut end = TextRange::empty(parser.range().start());
    while let Some(token) = next_in_bar(parser) {
        match token {
            Token::Blank => parser.skip_blanks(),
            Token::Open => open_group(parser, &mut open),
            Token::Close => close_group(parser, &mut open),
            _ => item(parser, content, latest, &mut open),
        }
        if token != Token::Blank {
            end = TextRange::empty(parser.range().start());
        }
    }
    for group in open {
        parser.report(unclosed(&group, end));
        parser.finish();
    }
    parser.finish();
}

/// The token that comes next in the bar. White space belongs to it only before a barline or an item.
fn next_in_bar(parser: &Parser) -> Option<Token> {
    parser.peek().filter(|token| *token != Token::Barline && !parser.at_end())
}

fn item(parser: &mut Parser, content: Content, latest: &mut Latest, open: &mut [OpenGroup]) {
    let counts = match content {
        Content::Notes => notes::item(parser, latest),
        Content::Numerals => numerals::item(parser),
    };
    count(open, counts);
}

fn count(open: &mut [OpenGroup], items: usize) {
    if let Some(group) = open.last_mut() {
        group.items += items;
    }
}

fn open_group(parser: &mut Parser, open: &mut Vec<OpenGroup>) {
    count(open, 1);
    if open.len() == DEEPEST {
        let range = parser.bump_many(balanced(parser), SyntaxKind::Broken);
        let message = format!("Groups stand in groups at most {DEEPEST} deep; expected a note.");
        parser.report(Problem::new(ProblemKind::NestedTooDeep, range, message));
        return;
    }
    parser.start(SyntaxKind::Group);
    open.push(OpenGroup { parenthesis: parser.bump(SyntaxKind::Open), items: 0 });
}

fn close_group(parser: &mut Parser, open: &mut Vec<OpenGroup>) {
    let Some(group) = open.pop() else { return unopened(parser) };
    let close = parser.bump(SyntaxKind::Close);
    parser.finish();
    if group.items == 0 {
        let range = group.parenthesis.cover(close);
        let message = "There is nothing in this group; expected notes between `(` and `)`.";
        parser.report(Problem::new(ProblemKind::EmptyGroup, range, message).write("?"));
    }
}

fn unopened(parser: &mut Parser) {
    let range = parser.bump(SyntaxKind::Stray);
    let message = "`)` ends a group that has not begun; expected `(` before it in this bar.";
    parser.report(Problem::new(ProblemKind::UnopenedGroup, range, message).remove(")"));
}

fn unclosed(group: &OpenGroup, end: TextRange) -> Problem {
    let message = "This group is not closed; expected `)` before the next barline.";
    let problem = Problem::new(ProblemKind::UnclosedGroup, group.parenthesis, message);
    problem.mend("Close the group".to_owned(), end, ")".to_owned())
}

/// How many tokens belong to the group that begins here, up to the end of the bar if it has no end.
fn balanced(parser: &Parser) -> usize {
    let (mut depth, mut content) = (0_usize, 0);
    for ahead in 0.. {
        match parser.peek_at(ahead) {
            None | Some(Token::Barline | Token::Newline | Token::Comment) => break,
            Some(Token::Blank) => continue,
            Some(Token::Open) => depth += 1,
            Some(Token::Close) => depth -= 1,
            Some(_) => {}
        }
        content = ahead + 1;
        if depth == 0 {
            break;
        }
    }
    content
}

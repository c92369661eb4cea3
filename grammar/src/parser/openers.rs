//! The lines that open a block: `cantus` and `exercise`. They must not know what follows them in it.

use rowan::TextRange;

use super::cursor::Parser;
use super::recovery::{missing, quoted_text};
use crate::problem::{Problem, ProblemKind};
use crate::syntax::SyntaxKind;
use crate::token::Token;

/// Reads the name of a cantus.
pub(super) fn cantus(parser: &mut Parser, head: TextRange) {
    parser.skip_blanks();
    if parser.at_end() {
        parser.report(missing(head, "a name for the cantus", "cantus harbour-song"));
    } else if parser.peek().is_some_and(Token::joins) {
        parser.bump_run(SyntaxKind::Name);
    } else if parser.peek() == Some(Token::Text) {
        quoted_name(parser);
    }
}

/// Reads the title of an exercise, which may be left out.
pub(super) fn exercise(parser: &mut Parser) {
    parser.skip_blanks();
    if !parser.at_end() {
        quoted_text(parser, "a title");
    }
}

fn quoted_name(parser: &mut Parser) {
    let words: Vec<_> = parser.text().trim_matches('"').split_whitespace().collect();
    let range = parser.bump(SyntaxKind::Stray);
    let message = "The name of a cantus is one word without quotation marks.";
    let problem = Problem::new(ProblemKind::ValueExpected, range, message);
    let meant = Some(words.join("-")).filter(|name| !name.is_empty());
    parser.report(problem.write_any(meant));
}

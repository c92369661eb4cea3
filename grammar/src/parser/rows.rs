//! Rows: what stands before the first barline, and the step into the bars. It must not know of any
//! other row.

use rowan::TextRange;

use super::bars::{self, Content};
use super::cursor::Parser;
use crate::numeral;
use crate::problem::{Problem, ProblemKind, shown};
use crate::spelling::Spelling;
use crate::syntax::SyntaxKind;
use crate::token::Token;
use crate::words::{ROLES, find, misspelling_of, suggestions};

/// Reads a row of a cantus definition after its first word.
pub(super) fn cantus(parser: &mut Parser, head: TextRange) {
    parser.skip_blanks();
    bars_after(parser, head, Content::Notes);
}

/// Reads a row of numerals after its first word.
pub(super) fn harmony(parser: &mut Parser, head: TextRange) {
    parser.skip_blanks();
    bars_after(parser, head, Content::Numerals);
}

/// Reads the row of a voice after its first word.
pub(super) fn voice(parser: &mut Parser, head: TextRange) {
    let mut head = head;
    parser.skip_blanks();
    if at_word(parser) {
        let role = parser.first_run();
        head = self::role(parser);
        parser.skip_blanks();
        if is_cantus(role) && parser.peek().is_some_and(Token::joins) {
            head = parser.bump_run(SyntaxKind::Name);
            parser.skip_blanks();
        }
    }
    bars_after(parser, head, Content::Notes);
}

fn is_cantus(role: &str) -> bool {
    find(role, ROLES).or_else(|| misspelling_of(role, ROLES)) == Some("cantus")
}

/// Whether a word of the head follows rather than a note.
fn at_word(parser: &Parser) -> bool {
    let run = parser.first_run();
    parser.peek() == Some(Token::Word)
        && Spelling::read_pitch(run).is_none()
        && find(run, &["rest"]).is_none()
}

fn role(parser: &mut Parser) -> TextRange {
    let text = parser.first_run();
    if find(text, ROLES).is_some() {
        return parser.bump_run(SyntaxKind::Keyword);
    }
    let kind = misspelling_of(text, ROLES).map_or(SyntaxKind::Stray, |_| SyntaxKind::Misspelt);
    let range = parser.bump_run(kind);
    let message = format!(
        "{} is no role of a voice; expected `cantus`, `counter` or the first barline.",
        shown(text)
    );
    let problem = Problem::new(ProblemKind::UnknownWord, range, message);
    parser.report(problem.write_any(suggestions(text, ROLES)));
    range
}

/// Reads the bars of a row whose head ends with `head`.
fn bars_after(parser: &mut Parser, head: TextRange, content: Content) {
    let in_head = parser.has_barline();
    while in_head && at_stray(parser, content) {
        stray(parser);
        parser.skip_blanks();
    }
    if parser.peek() != Some(Token::Barline) {
        parser.report(no_barline(head));
    }
    bars::bars(parser, content);
}

/// Whether something stands before the first barline that cannot stand in a bar either.
fn at_stray(parser: &Parser, content: Content) -> bool {
    match content {
        Content::Notes => at_word(parser),
        Content::Numerals => {
            parser.peek().is_some_and(Token::joins)
                && parser.peek() != Some(Token::Hyphen)
                && numeral::parts(parser.first_run()).is_none()
        }
    }
}

fn stray(parser: &mut Parser) {
    let text = parser.first_run();
    let range = parser.bump_run(SyntaxKind::Stray);
    let message = format!("The first barline was expected before {}.", shown(text));
    parser.report(Problem::new(ProblemKind::StrayText, range, message).remove(text));
}

fn no_barline(head: TextRange) -> Problem {
    let message = "The first barline of the row is missing; expected `|` after this word.";
    let after = TextRange::empty(head.end());
    let problem = Problem::new(ProblemKind::BarlineMissing, head, message);
    problem.mend("Write a barline".to_owned(), after, " |".to_owned())
}

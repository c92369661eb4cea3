//! The line that accepts a finding: `allow RULE [at BAR[.BEAT] [to BAR]] [because "…"]`. It must not
//! know which rules there are, nor how many bars the exercise has.

use rowan::TextRange;

use super::cursor::Parser;
use super::recovery::{missing, quoted_text};
use crate::problem::{Problem, ProblemKind, one_of, shown};
use crate::syntax::SyntaxKind;
use crate::token::Token;
use crate::words::{find, suggestions};

const CLAUSES: &[&str] = &["at", "to", "because"];

/// Reads the name of a rule and the clauses that follow it.
pub(super) fn licence(parser: &mut Parser, head: TextRange) {
    parser.skip_blanks();
    if parser.at_end() || find(parser.first_run(), CLAUSES).is_some() {
        parser.report(missing(head, "the name of a rule", "allow direct-fifth at 3"));
    } else if parser.peek().is_some_and(Token::joins) {
        parser.bump_run(SyntaxKind::Name);
    }
    parser.skip_blanks();
    let mut clauses = CLAUSES;
    while !parser.at_end() && parser.peek().is_some_and(Token::joins) {
        clauses = clause(parser, clauses);
        parser.skip_blanks();
    }
}

/// Reads one clause, and says which may still follow.
fn clause(parser: &mut Parser, open: &'static [&'static str]) -> &'static [&'static str] {
    let text = parser.first_run();
    if find(text, &["to"]).is_some() && open.contains(&"at") {
        parser.report(no_beginning(parser.range()));
    }
    match find(text, open) {
        Some("because") => reason(parser),
        Some(word) => place(parser, word),
        None => stray(parser, open),
    }
    match find(text, open) {
        Some("at") => &["to", "because"],
        Some("to") => &["because"],
        Some(_) => &[],
        None => open,
    }
}

fn no_beginning(to: TextRange) -> Problem {
    let message = "Expected `at` and a bar before `to`, as in `at 3 to 5`.";
    let problem = Problem::new(ProblemKind::ValueExpected, to, message);
    problem.write_at(TextRange::empty(to.start()), "at 1 ")
}

fn reason(parser: &mut Parser) {
    let head = parser.bump_run(SyntaxKind::Keyword);
    parser.skip_blanks();
    if parser.at_end() {
        parser.report(missing(head, "a reason", "because \"the lower note only passes\""));
    } else {
        quoted_text(parser, "a reason");
    }
}

fn place(parser: &mut Parser, word: &str) {
    let head = parser.bump_run(SyntaxKind::Keyword);
    parser.skip_blanks();
    let text = parser.first_run();
    if text.is_empty() || find(text, CLAUSES).is_some() {
        return parser.report(missing(head, "the number of a bar", &format!("{word} 3")));
    }
    let beat_allowed = word == "at";
    let kind = match (number(text), bar_and_beat(text)) {
        (Some(_), _) => SyntaxKind::Number,
        (_, Some(_)) if beat_allowed => SyntaxKind::Place,
        _ => SyntaxKind::Stray,
    };
    let range = parser.bump_run(kind);
    if kind == SyntaxKind::Stray {
        parser.report(unreadable_place(text, range, word));
    }
}

fn unreadable_place(text: &str, range: TextRange, word: &str) -> Problem {
    let expected = match word {
        "at" => "a bar, as in `at 3`, or a bar and a beat, as in `at 3.2`",
        _ => "a bar, as in `to 5`",
    };
    let message = format!("{} is no place; expected {expected}, counted from 1.", shown(text));
    let digits = text.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.');
    let kind = if digits { ProblemKind::NumberRange } else { ProblemKind::ValueExpected };
    Problem::new(kind, range, message).write_any(meant_bars(text).filter(|_| word == "at"))
}

/// From bar to bar in the words of the notation, where a hyphen stands between them.
fn meant_bars(text: &str) -> Option<String> {
    let (from, to) = text.split_once('-')?;
    Some(format!("{} to {}", number(from)?, number(to)?))
}

fn stray(parser: &mut Parser, open: &[&str]) {
    let text = parser.first_run();
    let range = parser.bump_run(SyntaxKind::Stray);
    let message = match open {
        [] => format!("The line was expected to end before {}.", shown(text)),
        _ => format!("{} is not expected here; expected {}.", shown(text), one_of(open)),
    };
    let problem = Problem::new(ProblemKind::StrayText, range, message);
    parser.report(problem.write_any(suggestions(text, open)).remove(text));
}

/// The number of a bar or a beat, from 1 on.
pub(crate) fn number(text: &str) -> Option<u32> {
    let digits = text.bytes().all(|byte| byte.is_ascii_digit());
    text.parse().ok().filter(|number| digits && *number > 0)
}

/// A bar and a beat, both from 1 on, as in `3.2`.
pub(crate) fn bar_and_beat(text: &str) -> Option<(u32, u32)> {
    let (bar, beat) = text.split_once('.')?;
    Some((number(bar)?, number(beat)?))
}

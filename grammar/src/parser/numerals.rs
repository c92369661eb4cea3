//! What can stand in a bar of a harmony row: numerals, holds and holes. This file must not know in
//! which group or bar it reads, nor what a numeral stands for.

use rowan::TextRange;

use super::cursor::Parser;
use crate::numeral;
use crate::problem::{Problem, ProblemKind, shown};
use crate::syntax::SyntaxKind;
use crate::token::Token;

/// Reads one token of a bar, and says how many shares it takes.
pub(super) fn item(parser: &mut Parser) -> usize {
    let text = parser.text();
    let kind = match parser.peek() {
        Some(Token::Hyphen) => SyntaxKind::Hold,
        Some(Token::Hole) => SyntaxKind::Hole,
        _ if numeral::parts(text).is_some() => SyntaxKind::Numeral,
        _ => SyntaxKind::Broken,
    };
    let range = parser.bump(kind);
    if kind == SyntaxKind::Broken {
        parser.report(unreadable(text, range));
    }
    1
}

fn unreadable(text: &str, range: TextRange) -> Problem {
    let message = format!(
        "{} is not a Roman numeral; expected one such as `I`, `ii6`, `V6/5` or `vii°6`.",
        shown(text)
    );
    let problem = Problem::new(ProblemKind::UnreadableNumeral, range, message);
    problem.write_any(meant(text))
}

fn meant(text: &str) -> Vec<String> {
    match text.to_lowercase().as_str() {
        "–" | "—" | "−" | "‐" | "_" | "rest" => vec!["-".to_owned()],
        _ => numeral::meant(text.trim_end_matches([',', ';', '.', ':'])),
    }
}

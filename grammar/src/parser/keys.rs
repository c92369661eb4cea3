//! The line that names a key: a tonic and a mode. It must not know which notes a key has.

use rowan::TextRange;

use super::cursor::Parser;
use super::recovery::missing;
use crate::problem::{Problem, ProblemKind, one_of, shown};
use crate::spelling::{Spelling, accidental, german_accidental};
use crate::syntax::SyntaxKind;
use crate::token::Token;
use crate::words::{MODES, find, misspelling_of, suggestions};

/// Reads a tonic and a mode.
pub(super) fn key(parser: &mut Parser, head: TextRange) {
    parser.skip_blanks();
    if parser.at_end() {
        return parser.report(missing(head, "a tonic and a mode", "key G major"));
    }
    if !parser.peek().is_some_and(Token::joins) {
        return;
    }
    let tonic = tonic(parser);
    parser.skip_blanks();
    if parser.at_end() {
        let after = TextRange::empty(tonic.end());
        let message = "After the tonic a mode is expected, as in `key G major`.";
        let problem = Problem::new(ProblemKind::ValueExpected, tonic, message);
        parser.report(problem.write_at(after, " major").write_at(after, " minor"));
    } else if parser.peek().is_some_and(Token::joins) {
        mode(parser);
    }
}

fn tonic(parser: &mut Parser) -> TextRange {
    let text = parser.first_run();
    if let Some(spelling) = Spelling::read(text) {
        let tonic = parser.bump_run(SyntaxKind::PitchClass);
        return accidental_word(parser, spelling, tonic);
    }
    let range = parser.bump_run(SyntaxKind::Stray);
    parser.report(unreadable_tonic(text, range));
    range
}

/// Reports `flat` or `sharp` written out after the tonic.
fn accidental_word(parser: &mut Parser, spelling: Spelling, tonic: TextRange) -> TextRange {
    let blank = usize::from(parser.peek() == Some(Token::Blank));
    let word = parser.first_run();
    let Some(accidental) = find(word, &["flat", "sharp"]).filter(|_| spelling.accidental == 0)
    else {
        return tonic;
    };
    let range = tonic.cover(parser.bump_many(blank + 1, SyntaxKind::Stray));
    let sign = if accidental == "flat" { "b" } else { "#" };
    let message =
        format!("`{} {word}` is written `{}{sign}` here.", spelling.letter, spelling.letter);
    let problem = Problem::new(ProblemKind::Accidental, range, message);
    parser.report(problem.write(format!("{}{sign}", spelling.letter)));
    range
}

fn unreadable_tonic(text: &str, range: TextRange) -> Problem {
    let message =
        format!("{} is not read as a tonic; expected one such as `G`, `F#` or `Bb`.", shown(text));
    let meant = meant_tonic(text);
    let same = meant.is_some_and(|meant| meant.to_string().eq_ignore_ascii_case(text));
    let kind = if same { ProblemKind::LetterCase } else { ProblemKind::UnknownLetter };
    Problem::new(kind, range, message).write_any(meant.map(|meant| meant.to_string()))
}

/// The tonic meant by a letter in lower case, by a German name or by a sign written out.
fn meant_tonic(text: &str) -> Option<Spelling> {
    let letter = text.chars().next().filter(char::is_ascii_alphabetic)?;
    let letter = if matches!(letter, 'H' | 'h') { 'B' } else { letter.to_ascii_uppercase() };
    let accidental = match &text[1..] {
        "-sharp" => 1,
        "-flat" => -1,
        sign => accidental(sign).or_else(|| german_accidental(sign))?,
    };
    Some(Spelling { letter, accidental }).filter(|_| letter <= 'G')
}

fn mode(parser: &mut Parser) {
    let text = parser.first_run();
    if find(text, MODES).is_some() {
        parser.bump_run(SyntaxKind::Mode);
        return;
    }
    let kind = misspelling_of(text, MODES).map_or(SyntaxKind::Stray, |_| SyntaxKind::Misspelt);
    let range = parser.bump_run(kind);
    let message = format!("{} is not a mode; expected {}.", shown(text), one_of(MODES));
    let problem = Problem::new(ProblemKind::UnknownWord, range, message);
    parser.report(problem.write_any(meant_modes(text)));
}

fn meant_modes(text: &str) -> Vec<&'static str> {
    match text.to_lowercase().as_str() {
        "dur" | "maggiore" | "majeur" => vec!["major"],
        "moll" | "minore" | "mineur" => vec!["minor"],
        _ => suggestions(text, MODES),
    }
}

//! Lines with one value that holds for all that follows: `use`, `rulebook`, `meter`, `species`, `by`,
//! `points`, `deadline`. They must not know what else is set, nor whether a path or a rulebook exists.

use rowan::TextRange;

use super::cursor::Parser;
use super::recovery::{missing, quoted_text};
use crate::problem::{Problem, ProblemKind, shown};
use crate::syntax::SyntaxKind;

/// A value in quotation marks: what it is, and an example of its line.
#[derive(Clone, Copy)]
pub(super) struct TextValue {
    what: &'static str,
    example: &'static str,
}

impl TextValue {
    /// The path of another sheet.
    pub(super) const PATH: Self = Self { what: "a path", example: "use \"cantus.bicinium\"" };
    /// The name of a writer.
    pub(super) const WRITER: Self = Self { what: "a name", example: "by \"Anna\"" };
    /// Until when something is to be handed in.
    pub(super) const DEADLINE: Self =
        Self { what: "a day or a time", example: "deadline \"Friday, before the lesson\"" };
}

/// Reads one value in quotation marks.
pub(super) fn text(parser: &mut Parser, head: TextRange, value: TextValue) {
    parser.skip_blanks();
    if parser.at_end() {
        parser.report(missing(head, value.what, value.example));
    } else {
        quoted_text(parser, value.what);
    }
}

/// Reads the name of a rulebook, or its path in quotation marks.
pub(super) fn rulebook(parser: &mut Parser, head: TextRange) {
    parser.skip_blanks();
    if parser.at_end() {
        parser.report(missing(head, "the name of a rulebook", "rulebook tonal"));
    } else if parser.first_run().is_empty() {
        quoted_text(parser, "the name of a rulebook");
    } else {
        parser.bump_run(SyntaxKind::Name);
    }
}

/// Reads a meter.
pub(super) fn meter(parser: &mut Parser, head: TextRange) {
    parser.skip_blanks();
    let text = parser.first_run();
    if parser.at_end() {
        parser.report(missing(head, "a meter", "meter 4/4"));
    } else if fraction(text).is_some() {
        parser.bump(SyntaxKind::Fraction);
    } else {
        let (text, _) = parser.rest();
        let range = parser.bump_rest(SyntaxKind::Stray);
        let message =
            format!("{} is not a meter; expected beats and note value, as in `4/4`.", shown(text));
        let kind = match fraction_shape(text) {
            Some(_) => ProblemKind::NumberRange,
            None => ProblemKind::ValueExpected,
        };
        parser.report(Problem::new(kind, range, message).write_any(meant_meter(text)));
    }
}

/// Reads the number of a species.
pub(super) fn species(parser: &mut Parser, head: TextRange) {
    parser.skip_blanks();
    let text = parser.first_run();
    if parser.at_end() {
        parser.report(missing(head, "a number from 1 to 5", "species 1"));
    } else if species_number(text).is_some() {
        parser.bump(SyntaxKind::Number);
    } else {
        let (text, range, kind) = no_number(parser);
        let message = format!("{} is not a species; expected a number from 1 to 5.", shown(text));
        let problem = Problem::new(kind, range, message)
            .hint("Leave the line out to write freely in two parts.");
        parser.report(problem.write_any(meant_species(text)));
    }
}

/// Reads how many points an exercise is worth.
pub(super) fn points(parser: &mut Parser, head: TextRange) {
    parser.skip_blanks();
    let text = parser.first_run();
    if parser.at_end() {
        parser.report(missing(head, "a number from 1 to 1000", "points 10"));
    } else if points_number(text).is_some() {
        parser.bump(SyntaxKind::Number);
    } else {
        let (text, range, kind) = no_number(parser);
        let message = format!(
            "{} is no number of points; expected a whole number from 1 to 1000.",
            shown(text)
        );
        parser.report(Problem::new(kind, range, message));
    }
}

/// The numbers of a meter such as `3/2`, if both make sense.
pub(crate) fn fraction(text: &str) -> Option<(u32, u32)> {
    fraction_shape(text)
        .and_then(|(beats, unit)| Some((beats.parse().ok()?, unit.parse().ok()?)))
        .filter(|(beats, unit)| *beats > 0 && *unit > 0)
}

/// The number of a species, 1 to 5.
pub(crate) fn species_number(text: &str) -> Option<u32> {
    let number = text.parse().ok().filter(|number| (1..=5).contains(number));
    number.filter(|_| text.len() == 1)
}

/// The number of points of an exercise, 1 to 1000, without zeros before it.
pub(crate) fn points_number(text: &str) -> Option<u32> {
    let is_number = !text.starts_with(['0', '+']);
    text.parse().ok().filter(|number| is_number && (1..=1000).contains(number))
}

fn fraction_shape(text: &str) -> Option<(&str, &str)> {
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    text.split_once('/').filter(|(beats, unit)| digits(beats) && digits(unit))
}

fn meant_meter(text: &str) -> Option<String> {
    let close: String = text.split_whitespace().collect();
    match close.as_str() {
        "C" | "c" => Some("4/4".to_owned()),
        "¢" => Some("2/2".to_owned()),
        _ => fraction(&close).map(|_| close),
    }
}

fn meant_species(text: &str) -> Option<&'static str> {
    let names = [
        ["first", "one", "i", "1st"],
        ["second", "two", "ii", "2nd"],
        ["third", "three", "iii", "3rd"],
        ["fourth", "four", "iv", "4th"],
        ["fifth", "five", "v", "5th"],
    ];
    let numbers = ["1", "2", "3", "4", "5"];
    let word = text.to_lowercase();
    names.iter().zip(numbers).find(|(names, _)| names.contains(&word.as_str())).map(|(_, n)| n)
}

/// Takes what stands where a number belongs: what it is, where, and what is wrong with it.
fn no_number<'a>(parser: &mut Parser<'a, '_>) -> (&'a str, TextRange, ProblemKind) {
    let (text, _) = parser.rest();
    let range = parser.bump_rest(SyntaxKind::Stray);
    let is_number = text.bytes().all(|byte| byte.is_ascii_digit());
    let kind = if is_number { ProblemKind::NumberRange } else { ProblemKind::ValueExpected };
    (text, range, kind)
}

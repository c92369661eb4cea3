//! What is said where a text is no rulebook at all, not even TOML. Knows what people are likely to
//! have meant, by the reasons that the parser gives.

use std::collections::BTreeMap;
use std::ops::Range;

use toml::de::Error;

use super::RulebookProblem;

/// What is said where an answer is missing.
const MISSING: &str = "Something is missing here: an answer has the form `level = \"fault\"`.";
/// What is said where a word stands bare.
const BARE: &str = "A word stands in straight quotation marks, as in `level = \"fault\"`.";
/// What is said where something goes too deep.
const DEEP: &str = "This goes too deep. Nothing lies deeper than `[species.1.rules.span]`.";
/// What is said where text cannot be read, by the beginning of the reason.
const ADVICE: [(&str, &str); 12] = [
    ("duplicate key", "This is said twice. Keep one of the two."),
    ("string values must be quoted", BARE),
    ("invalid boolean", BARE),
    ("invalid float", BARE),
    ("key with no value", MISSING),
    ("unclosed table", "The bracket of this heading is not closed, as in `[rules.span]`."),
    ("unclosed array", "The bracket of this list is not closed, as in `[\"F3\", \"D5\"]`."),
    ("missing comma", "A comma is missing here, as in `[\"F3\", \"D5\"]`."),
    ("invalid basic string", "The quotation marks are not closed here."),
    ("invalid literal string", "The quotation marks are not closed here."),
    ("recursion", DEEP),
    ("cannot recurse", DEEP),
];
/// What is said where nothing better is known.
const ANY_ADVICE: &str = "This cannot be read. A rulebook has headings such as `[rules.span]`, and \
                          below them answers such as `level = \"fault\"`.";

/// What cannot be read, the first thing in each line; what follows it there is often only its echo.
pub(super) fn told(text: &str, errors: &[Error]) -> Vec<RulebookProblem> {
    let mut by_line = BTreeMap::new();
    for error in errors {
        let range = error.span().unwrap_or_default();
        let line = text.bytes().take(range.start).filter(|byte| *byte == b'\n').count();
        by_line.entry(line).or_insert_with(|| problem(range, error.message()));
    }
    by_line.into_values().collect()
}

fn problem(range: Range<usize>, reason: &str) -> RulebookProblem {
    let meant = |(begin, _): &&(&str, &str)| reason.starts_with(begin);
    let advice = ADVICE.iter().find(meant).map_or(ANY_ADVICE, |(_, advice)| advice);
    let is_missing = range.is_empty() && reason.starts_with("string values");
    RulebookProblem::at(range, if is_missing { MISSING } else { advice })
}

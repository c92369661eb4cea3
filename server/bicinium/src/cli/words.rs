//! How numbers, lists and running text are put. It must not know what they are about.

pub(super) use crate::features::words::{count, list};

/// The widest line of running text, in columns.
pub(super) const WIDTH: usize = 80;

/// Paragraphs broken into lines, each after `indent`.
pub(super) fn wrapped(text: &str, indent: &str) -> String {
    hanging(text, indent, indent)
}

/// Paragraphs broken into lines, the first after one indent, the others after another.
pub(super) fn hanging(text: &str, first: &str, others: &str) -> String {
    let options = textwrap::Options::new(WIDTH)
        .initial_indent(first)
        .subsequent_indent(others)
        .word_splitter(textwrap::WordSplitter::NoHyphenation);
    let lines = textwrap::wrap(text, options);
    lines.iter().map(|line| line.trim_end()).collect::<Vec<_>>().join("\n")
}

/// The text with everything replaced that a terminal would obey instead of showing it.
pub(super) fn shown(text: &str) -> String {
    let shown = |character: char| match character {
        '\n' | '\t' => character,
        _ if character.is_control() => char::REPLACEMENT_CHARACTER,
        _ => character,
    };
    text.chars().map(shown).collect()
}

#[cfg(test)]
mod tests {
    use super::{shown, wrapped};

    #[test]
    fn text_is_broken_between_words_only() {
        let text = wrapped(&"well-kept ".repeat(20), "  ");
        assert!(text.lines().all(|line| line.starts_with("  well-kept") && line.len() <= 80));
    }

    #[test]
    fn a_terminal_is_given_nothing_to_obey() {
        assert_eq!(shown("a\u{1b}[2Jb"), "a\u{FFFD}[2Jb");
    }
}

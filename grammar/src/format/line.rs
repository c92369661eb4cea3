//! Lines without bars, and the words that every line is made of. This module must not know of any
//! other line than the one at hand.

use rowan::NodeOrToken;

use crate::block::BlockKind;
use crate::numeral;
use crate::spelling::Spelling;
use crate::syntax::{SyntaxKind, SyntaxNode, SyntaxToken};

/// What a line within a block begins with.
pub(super) const INDENT: &str = "  ";

/// The text of a line that is no row.
pub(super) fn text(line: &SyntaxNode, block: BlockKind) -> String {
    let words = tokens(line).filter(|token| !token.kind().is_trivia()).map(|token| word(&token));
    let text = words.collect::<Vec<_>>().join(" ");
    with_comment(&format!("{}{text}", indent(line, block)), line)
}

/// `text` and the comment of `line` after it.
pub(super) fn with_comment(text: &str, line: &SyntaxNode) -> String {
    let comment = tokens(line).find(|token| token.kind() == SyntaxKind::Comment);
    let Some(comment) = comment else { return text.trim_end().to_owned() };
    let gap = if text.trim_end().is_empty() { "" } else { " " };
    format!("{text}{gap}{}", comment.text().trim_end())
}

/// A token in the one form in which it is printed.
pub(super) fn word(token: &SyntaxToken) -> String {
    match token.kind() {
        SyntaxKind::Keyword | SyntaxKind::Mode | SyntaxKind::Rest => {
            token.text().to_ascii_lowercase()
        }
        SyntaxKind::Pitch | SyntaxKind::PitchClass => pitch(token.text()),
        SyntaxKind::Numeral => numeral::normal(token.text()),
        _ => token.text().to_owned(),
    }
}

/// The tokens that stand directly in `node`.
pub(super) fn tokens(node: &SyntaxNode) -> impl Iterator<Item = SyntaxToken> {
    node.children_with_tokens().filter_map(NodeOrToken::into_token)
}

fn pitch(text: &str) -> String {
    match Spelling::read_pitch(text) {
        Some((spelling, Some(octave))) => format!("{spelling}{octave}"),
        Some((spelling, None)) => spelling.to_string(),
        None => text.to_owned(),
    }
}

/// Comments at the beginning of a line stay there, since they often speak of the block to come.
fn indent(line: &SyntaxNode, block: BlockKind) -> &'static str {
    let first = line.first_token().map(|token| token.kind());
    match line.kind() {
        SyntaxKind::CantusLine | SyntaxKind::ExerciseLine => "",
        _ if block == BlockKind::Preamble => "",
        SyntaxKind::BlankLine if first == Some(SyntaxKind::Comment) => "",
        _ => INDENT,
    }
}

//! Words set apart as semantic tokens: numbers in groups of five, each place counted from the one
//! before. Those of a block are counted from its start and kept with it, so that a block that has only
//! moved is not looked at again.
//!
//! It must not know what the client has been sent before.

use std::sync::Arc;

use bicinium_analysis::sheet::Judged as JudgedBlock;
use bicinium_grammar::{Mark, TextRange};
use tower_lsp::lsp_types as lsp;

use crate::features::tokens::{Part, Sounding, Token, tokens};
use crate::lsp::client::ClientProfile;
use crate::lsp::document::Judged;
use crate::lsp::painted::{Block, Painted};

/// The kinds of tokens, in the order of their numbers.
const KINDS: [lsp::SemanticTokenType; 12] = [
    lsp::SemanticTokenType::COMMENT,
    lsp::SemanticTokenType::KEYWORD,
    lsp::SemanticTokenType::TYPE,
    lsp::SemanticTokenType::MODIFIER,
    lsp::SemanticTokenType::FUNCTION,
    lsp::SemanticTokenType::PROPERTY,
    lsp::SemanticTokenType::NAMESPACE,
    lsp::SemanticTokenType::STRING,
    lsp::SemanticTokenType::NUMBER,
    lsp::SemanticTokenType::ENUM_MEMBER,
    lsp::SemanticTokenType::VARIABLE,
    lsp::SemanticTokenType::OPERATOR,
];

/// What is not among the kinds: a hole stands out like nothing else.
const HOLE: lsp::SemanticTokenType = lsp::SemanticTokenType::MACRO;

/// A note that is dissonant with the other voice.
const DISSONANT: lsp::SemanticTokenModifier = lsp::SemanticTokenModifier::new("dissonant");

/// What the numbers mean.
pub(super) fn legend() -> lsp::SemanticTokensLegend {
    lsp::SemanticTokensLegend {
        token_types: KINDS.into_iter().chain([HOLE]).collect(),
        token_modifiers: vec![
            lsp::SemanticTokenModifier::DECLARATION,
            lsp::SemanticTokenModifier::READONLY,
            DISSONANT,
        ],
    }
}

/// The tokens of a document.
pub(in crate::lsp) fn painted(judged: &Judged, client: &ClientProfile) -> Painted {
    in_lines(judged, 0..=u32::MAX, client)
}

/// The tokens on the lines that a range touches.
pub(in crate::lsp) fn in_range(
    judged: &Judged,
    range: lsp::Range,
    client: &ClientProfile,
) -> lsp::SemanticTokens {
    let lines = range.start.line..=range.end.line.max(range.start.line);
    in_lines(judged, lines.clone(), client).on_lines(&lines)
}

/// The blocks that have tokens and touch these lines.
fn in_lines(
    judged: &Judged,
    lines: std::ops::RangeInclusive<u32>,
    client: &ClientProfile,
) -> Painted {
    let mut painted = Painted::default();
    let mut line = 0;
    for block in judged.snapshot.blocks() {
        let line_ends = u32::try_from(block.judged.line_ends).unwrap_or(u32::MAX);
        let next = line + line_ends;
        if next >= *lines.start() && line <= *lines.end() {
            let make = || self::block(judged, block.start, line, &block.judged, client);
            painted.push(line, block.judged.kept.get_or_make(|_: &Block| true, make));
        }
        line = next;
    }
    painted
}

fn block(
    judged: &Judged,
    start: usize,
    line: u32,
    block: &Arc<JudgedBlock>,
    client: &ClientProfile,
) -> Block {
    let place = |range: TextRange| {
        let bytes = start + usize::from(range.start())..start + usize::from(range.end());
        judged.text.range(bytes, client.encoding)
    };
    let placed = tokens(block).into_iter().map(|token| {
        let range = place(token.range);
        let length = range.end.character.saturating_sub(range.start.character);
        let at = lsp::Position::new(range.start.line - line, range.start.character);
        (at, length, kind(token.mark), modifiers(token))
    });
    Block::new(placed)
}

fn kind(mark: Mark) -> u32 {
    match mark {
        Mark::Comment => 0,
        Mark::Keyword => 1,
        Mark::Voice => 2,
        Mark::Role => 3,
        Mark::CantusDefinition | Mark::CantusName => 4,
        Mark::Rule => 5,
        Mark::Rulebook => 6,
        Mark::Text => 7,
        Mark::Number => 8,
        Mark::Tonic | Mark::Mode | Mark::Numeral => 9,
        Mark::Note => 10,
        Mark::Hold | Mark::Group | Mark::Rest => 11,
        Mark::Hole => 12,
    }
}

/// What is said besides: a bit for each.
fn modifiers(token: Token) -> u32 {
    let bits = [
        token.mark == Mark::CantusDefinition,
        token.part == Part::Given,
        token.sound == Sounding::Dissonant,
    ];
    bits.into_iter().zip(0..).map(|(is_set, bit)| u32::from(is_set) << bit).sum()
}

#[cfg(test)]
mod tests {
    use super::{HOLE, Mark, kind, legend};

    #[test]
    fn the_legend_has_a_name_for_every_number() {
        let names = legend().token_types;
        assert_eq!(names[usize::try_from(kind(Mark::Hole)).unwrap()], HOLE);
        assert_eq!(names[usize::try_from(kind(Mark::Note)).unwrap()].as_str(), "variable");
        assert_eq!(names[usize::try_from(kind(Mark::Comment)).unwrap()].as_str(), "comment");
    }
}

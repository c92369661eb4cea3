//! Words set apart as semantic tokens: numbers in groups of five, each place counted from the one
//! before. Those of a block are counted from its start and kept with it, so that a block that has only
//! moved is not looked at again.
//!
//! It must not know what the client has been sent before.

use bicinium_grammar::Mark;
use tower_lsp::lsp_types as lsp;

use crate::features::tokens::{Part, Sounding, Token, tokens};
use crate::lsp::blocks::Block;
use crate::lsp::client::ClientProfile;
use crate::lsp::document::Judged;
use crate::lsp::painted::{Colours, Painted};
use crate::lsp::text::Encoding;

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
    for placed in judged.snapshot.blocks() {
        let block = judged.block(placed);
        if block.is_on(&lines) {
            let make = || colours(block, client.encoding);
            painted.push(block.line, block.keep(&(), make));
        }
    }
    painted
}

fn colours(block: Block<'_>, encoding: Encoding) -> Colours {
    let placed = tokens(block.judged).into_iter().map(|token| {
        let range = block.range(token.range, encoding);
        let length = range.end.character.saturating_sub(range.start.character);
        (range.start, length, kind(token.mark), modifiers(token))
    });
    Colours::new(placed)
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

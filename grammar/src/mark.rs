//! What each word and sign of a block is, for whoever sets them apart on a screen. It must not know
//! which of them are right: what could not be read has no mark.

use rowan::{NodeOrToken, TextRange, TextSize};

use crate::block::BlockTree;
use crate::syntax::{SyntaxKind, SyntaxToken};

/// What a word or a sign is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Mark {
    /// A comment.
    Comment,
    /// A word of the notation that is none of the following.
    Keyword,
    /// The register of a voice.
    Voice,
    /// What a voice is for.
    Role,
    /// The name of a cantus where it is defined.
    CantusDefinition,
    /// The name of a cantus where it is followed.
    CantusName,
    /// The name of a rule.
    Rule,
    /// The name of a rulebook.
    Rulebook,
    /// Text in quotation marks.
    Text,
    /// A number, a meter, or a bar with its beat.
    Number,
    /// The tonic of a key.
    Tonic,
    /// The mode of a key.
    Mode,
    /// A note.
    Note,
    /// `-` in a bar.
    Hold,
    /// `(` or `)`.
    Group,
    /// `rest`.
    Rest,
    /// `?`.
    Hole,
    /// A Roman numeral.
    Numeral,
}

impl BlockTree {
    /// The marks of the block in the order of its text, with places counted from its start.
    pub fn marks(&self) -> Vec<(Mark, TextRange)> {
        let elements = self.syntax().descendants_with_tokens();
        let marked = elements.filter_map(NodeOrToken::into_token).filter_map(|token| {
            let end = token.text().trim_end().len();
            let range = TextRange::at(token.text_range().start(), TextSize::try_from(end).ok()?);
            Some((mark(&token)?, range))
        });
        marked.collect()
    }
}

fn mark(token: &SyntaxToken) -> Option<Mark> {
    let line = token.parent()?.kind();
    Some(match (token.kind(), line) {
        (SyntaxKind::Comment, _) => Mark::Comment,
        (SyntaxKind::Keyword, SyntaxKind::VoiceRow) if is_first(token) => Mark::Voice,
        (SyntaxKind::Keyword, SyntaxKind::VoiceRow) => Mark::Role,
        (SyntaxKind::Keyword, _) => Mark::Keyword,
        (SyntaxKind::Name, SyntaxKind::CantusLine) => Mark::CantusDefinition,
        (SyntaxKind::Name, SyntaxKind::VoiceRow) => Mark::CantusName,
        (SyntaxKind::Name, SyntaxKind::LicenceLine) => Mark::Rule,
        (SyntaxKind::Name, SyntaxKind::RulebookLine) => Mark::Rulebook,
        (SyntaxKind::Text, _) => Mark::Text,
        (SyntaxKind::Number | SyntaxKind::Fraction | SyntaxKind::Place, _) => Mark::Number,
        (SyntaxKind::PitchClass, SyntaxKind::KeyLine) => Mark::Tonic,
        (SyntaxKind::Mode, _) => Mark::Mode,
        (SyntaxKind::Pitch, _) => Mark::Note,
        (SyntaxKind::Hold, _) => Mark::Hold,
        (SyntaxKind::Open | SyntaxKind::Close, _) => Mark::Group,
        (SyntaxKind::Rest, _) => Mark::Rest,
        (SyntaxKind::Hole, _) => Mark::Hole,
        (SyntaxKind::Numeral, _) => Mark::Numeral,
        _ => return None,
    })
}

/// Whether nothing but white space stands before it on its line.
fn is_first(token: &SyntaxToken) -> bool {
    let before = std::iter::successors(token.prev_sibling_or_token(), |element| {
        element.prev_sibling_or_token()
    });
    before.map(|element| element.kind()).all(SyntaxKind::is_trivia)
}

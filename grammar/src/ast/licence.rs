//! Licences: findings that are accepted on purpose. They must not know which rules there are.

use rowan::TextRange;

use super::read;
use crate::parser::{bar_and_beat, number};
use crate::syntax::{SyntaxKind, SyntaxNode, SyntaxToken};

/// A line that accepts a finding.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Licence(SyntaxNode);

/// A place in an exercise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Place {
    /// The bar, from 1 on.
    pub bar: u32,
    /// The beat in the bar, from 1 on, if one is named.
    pub beat: Option<u32>,
    /// Where the place stands in the text.
    pub range: TextRange,
}

impl Licence {
    /// The name of the rule.
    pub fn rule(&self) -> Option<String> {
        read::token_text(&self.0, SyntaxKind::Name)
    }

    /// Where the name of the rule stands.
    pub fn rule_range(&self) -> Option<TextRange> {
        read::token_range(&self.0, SyntaxKind::Name)
    }

    /// The place from which on the finding is accepted.
    pub fn from(&self) -> Option<Place> {
        let value = self.value_of("at")?;
        let (bar, beat) = match number(value.text()) {
            Some(bar) => (bar, None),
            None => bar_and_beat(value.text()).map(|(bar, beat)| (bar, Some(beat)))?,
        };
        Some(Place { bar, beat, range: value.text_range() })
    }

    /// The last bar in which the finding is accepted, from 1 on.
    pub fn to(&self) -> Option<u32> {
        number(self.value_of("to")?.text())
    }

    /// Whether the line tries to name a place or a last bar that could not be read, or a last bar
    /// without a first one.
    pub fn has_unreadable_place(&self) -> bool {
        let says = |word| self.words().any(|token| token.text().eq_ignore_ascii_case(word));
        let (at, to) = (says("at"), says("to"));
        (at || to) && self.from().is_none() || to && self.to().is_none()
    }

    /// Why the finding is accepted.
    pub fn reason(&self) -> Option<String> {
        read::quoted(&self.0)
    }

    /// The line, without white space and comment.
    pub fn range(&self) -> TextRange {
        read::trimmed(&self.0)
    }

    fn words(&self) -> impl Iterator<Item = SyntaxToken> {
        read::tokens(&self.0).filter(|token| !token.kind().is_trivia())
    }

    /// The token after the word that opens a clause.
    fn value_of(&self, word: &str) -> Option<SyntaxToken> {
        let mut words = self.words();
        words.find(|token| {
            token.kind() == SyntaxKind::Keyword && token.text().eq_ignore_ascii_case(word)
        })?;
        words.next().filter(|value| matches!(value.kind(), SyntaxKind::Number | SyntaxKind::Place))
    }
}

pub(super) fn licences(block: &SyntaxNode) -> Vec<Licence> {
    read::lines(block, SyntaxKind::LicenceLine).map(Licence).collect()
}

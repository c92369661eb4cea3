//! The classes of colour, and which tokens belong to which.

use bicinium_grammar::SyntaxKind;
use serde::Deserialize;

/// What a token looks like. Where two kinds look alike in an editor they have one class.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Class {
    /// A comment.
    Comment,
    /// A word with which a line begins, or one that joins the parts of a licence.
    Keyword,
    /// `cantus` or `counter` behind the name of a voice.
    Role,
    /// The name of a mode.
    Mode,
    /// A name.
    Name,
    /// A number, a meter, a bar and a beat.
    Number,
    /// Text between quotation marks.
    Text,
    /// A barline.
    Barline,
    /// A parenthesis.
    Group,
    /// A hold.
    Hold,
    /// A note not yet chosen.
    Hole,
    /// Silence.
    Rest,
    /// A note, or a tonic.
    Pitch,
    /// A Roman numeral.
    Numeral,
}

impl Class {
    /// The class of tokens of this kind; `None` where it does not matter how a token looks, since
    /// the server marks it as a mistake.
    pub fn of(kind: SyntaxKind) -> Option<Self> {
        Some(match kind {
            SyntaxKind::Comment => Self::Comment,
            SyntaxKind::Barline => Self::Barline,
            SyntaxKind::Open | SyntaxKind::Close => Self::Group,
            SyntaxKind::Hold => Self::Hold,
            SyntaxKind::Hole => Self::Hole,
            SyntaxKind::Rest => Self::Rest,
            SyntaxKind::Pitch | SyntaxKind::PitchClass => Self::Pitch,
            SyntaxKind::Numeral => Self::Numeral,
            SyntaxKind::Keyword => Self::Keyword,
            SyntaxKind::Mode => Self::Mode,
            SyntaxKind::Number | SyntaxKind::Fraction | SyntaxKind::Place => Self::Number,
            SyntaxKind::Text => Self::Text,
            SyntaxKind::Name => Self::Name,
            _ => return None,
        })
    }
}

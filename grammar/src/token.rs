//! The smallest pieces of a line. Tokens never cross the end of a line, every character belongs to
//! exactly one of them, and what fits nowhere else is a word. A token must not know in what kind of
//! line it stands: what a word means is decided by the parser.

use std::ops::Range;

use logos::Logos;

/// One kind of piece of a line.
#[derive(Logos, Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Token {
    /// The end of a line: `\n`, `\r\n` or a lone `\r`.
    #[regex(r"\r\n|\n|\r")]
    Newline,
    /// White space within a line; a byte order mark counts as such.
    #[regex(r"[\s\u{FEFF}--\r\n]+")]
    Blank,
    /// `//` and all that follows on the line.
    #[regex(r"//[^\r\n]*", allow_greedy = true)]
    Comment,
    /// A barline.
    #[token("|")]
    Barline,
    /// The beginning of a group.
    #[token("(")]
    Open,
    /// The end of a group.
    #[token(")")]
    Close,
    /// A hold, or the hyphen of a name.
    #[token("-")]
    Hyphen,
    /// A note not yet chosen.
    #[token("?")]
    Hole,
    /// Text between quotation marks.
    #[regex(r#""[^"\r\n]*""#)]
    Text,
    /// Text whose closing quotation mark is missing.
    #[regex(r#""[^"\r\n]*"#)]
    UnclosedText,
    /// Text between typographic quotation marks.
    #[regex(r#"[“”„«»][^“”„«»"\r\n]*[“”«»]"#)]
    CurlyText,
    /// Digits.
    #[regex(r"[0-9]+", priority = 20)]
    Number,
    /// Two numbers with a stroke between them, as in `3/2`.
    #[regex(r"[0-9]+/[0-9]+", priority = 20)]
    Fraction,
    /// Two numbers with a point between them, as in `3.2`.
    #[regex(r"[0-9]+\.[0-9]+", priority = 20)]
    Place,
    /// Letter, accidental and octave, as in `F#3`.
    #[regex(r"[A-G](#|##|♯|♯♯|x|𝄪|b|bb|♭|♭♭|𝄫|♮)?[0-9]", priority = 20)]
    Pitch,
    /// A pitch with a minus before its octave, which would otherwise be taken for a hold.
    #[regex(r"[A-Ha-h](#|##|♯|♯♯|x|𝄪|b|bb|♭|♭♭|𝄫|♮)?-[0-9]+", priority = 20)]
    NegativeOctave,
    /// A stroke that belongs to nothing.
    #[token("/")]
    Stroke,
    /// Any other run of characters.
    #[regex(r#"(/?[^\s\u{FEFF}|()?"\-/])+"#, priority = 1)]
    Word,
}

impl Token {
    /// Whether the token can be part of a name or of another unbroken run of characters.
    pub(crate) fn joins(self) -> bool {
        matches!(
            self,
            Self::Hyphen
                | Self::Number
                | Self::Fraction
                | Self::Place
                | Self::Pitch
                | Self::NegativeOctave
                | Self::Stroke
                | Self::Word
        )
    }
}

/// A token and where it stands, in bytes from the start of the text it was read from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Lexeme {
    /// What it is.
    pub(crate) token: Token,
    /// Its bytes.
    pub(crate) range: Range<usize>,
}

/// The tokens of `text`, one by one.
pub(crate) fn lexemes(text: &str) -> impl Iterator<Item = Lexeme> {
    Token::lexer(text)
        .spanned()
        .map(|(token, range)| Lexeme { token: token.unwrap_or(Token::Word), range })
}

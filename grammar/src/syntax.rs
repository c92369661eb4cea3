//! The kinds of nodes and tokens of the tree, and the name under which `rowan` knows them. Kinds say
//! how a piece of text was read; they must not carry values, which the typed view takes from the text.

/// The language of the tree, for `rowan`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Bicinium {}

/// A node of the tree, with its place counted from the start of its block.
pub type SyntaxNode = rowan::SyntaxNode<Bicinium>;

/// A token of the tree, with its place counted from the start of its block.
pub type SyntaxToken = rowan::SyntaxToken<Bicinium>;

macro_rules! syntax_kinds {
    ($($(#[$doc:meta])* $kind:ident,)*) => {
        /// How a piece of text was read.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[repr(u16)]
        pub enum SyntaxKind { $($(#[$doc])* $kind,)* }

        const KINDS: &[SyntaxKind] = &[$(SyntaxKind::$kind,)*];
    };
}

syntax_kinds! {
    /// White space within a line.
    Whitespace,
    /// The end of a line.
    Newline,
    /// A comment.
    Comment,
    /// A barline.
    Barline,
    /// `(`.
    Open,
    /// `)`.
    Close,
    /// `-` in a bar.
    Hold,
    /// `?` in a bar.
    Hole,
    /// `rest` in a bar.
    Rest,
    /// A note with its octave.
    Pitch,
    /// A note without octave, or a tonic.
    PitchClass,
    /// A Roman numeral.
    Numeral,
    /// Something unreadable that takes the place of one note or numeral.
    Broken,
    /// Something unreadable that takes no place.
    Stray,
    /// A word of the notation.
    Keyword,
    /// A word read as the word of the notation that it is nearest to.
    Misspelt,
    /// The name of a mode.
    Mode,
    /// A whole number.
    Number,
    /// A meter.
    Fraction,
    /// A bar and a beat.
    Place,
    /// Text between quotation marks.
    Text,
    /// A name.
    Name,
    /// A block of a sheet; its children are lines.
    Block,
    /// A line with at most a comment.
    BlankLine,
    /// A line that could not be read.
    UnknownLine,
    /// `use "path"`.
    UseLine,
    /// `rulebook NAME`.
    RulebookLine,
    /// `meter N/M`.
    MeterLine,
    /// `key TONIC MODE`.
    KeyLine,
    /// `species N`.
    SpeciesLine,
    /// `by "name"`.
    ByLine,
    /// `points N`.
    PointsLine,
    /// `deadline "text"`.
    DeadlineLine,
    /// `cantus NAME`.
    CantusLine,
    /// `exercise "title"`.
    ExerciseLine,
    /// A row of a cantus definition.
    LineRow,
    /// A row of one voice.
    VoiceRow,
    /// A row of numerals.
    HarmonyRow,
    /// `allow RULE`.
    LicenceLine,
    /// What stands between two barlines.
    Bar,
    /// What stands between parentheses.
    Group,
}

impl SyntaxKind {
    /// Whether the kind is white space, a comment or the end of a line.
    pub fn is_trivia(self) -> bool {
        matches!(self, Self::Whitespace | Self::Newline | Self::Comment)
    }
}

impl From<SyntaxKind> for rowan::SyntaxKind {
    fn from(kind: SyntaxKind) -> Self {
        Self(kind as u16)
    }
}

impl rowan::Language for Bicinium {
    type Kind = SyntaxKind;

    fn kind_from_raw(raw: rowan::SyntaxKind) -> SyntaxKind {
        KINDS.get(usize::from(raw.0)).copied().unwrap_or(SyntaxKind::Stray)
    }

    fn kind_to_raw(kind: SyntaxKind) -> rowan::SyntaxKind {
        kind.into()
    }
}

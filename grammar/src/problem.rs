//! What is reported about text that cannot be read: where, what was expected, and what would mend
//! it. Problems are about the notation alone; they must not speak of music that is wrong.

use rowan::TextRange;

/// One place of a block that could not be read. All ranges count in bytes from the block's start.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// What sort of problem it is.
    pub kind: ProblemKind,
    /// The text that could not be read, or the word after which something is missing.
    pub range: TextRange,
    /// A full sentence that says what is wrong and what was expected.
    pub message: String,
    /// What else helps to put it right.
    pub hint: Option<&'static str>,
    /// Replacements that would put it right, the likeliest first.
    pub mends: Vec<Mend>,
}

/// A replacement of one stretch of text that puts a problem right.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mend {
    /// What the replacement does, as an instruction.
    pub title: String,
    /// The bytes to replace, counted from the block's start; empty where text is put in.
    pub range: TextRange,
    /// What stands there afterwards.
    pub text: String,
}

macro_rules! problem_kinds {
    ($($(#[$doc:meta])* $kind:ident = $name:literal,)*) => {
        /// The sort of a problem.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum ProblemKind { $($(#[$doc])* $kind,)* }

        impl ProblemKind {
            /// Every sort of problem.
            pub const ALL: &[Self] = &[$(Self::$kind,)*];

            /// The name under which the problem is reported.
            pub fn name(self) -> &'static str {
                match self { $(Self::$kind => $name,)* }
            }
        }
    };
}

problem_kinds! {
    /// An accidental that does not exist or does not stand between letter and octave.
    Accidental = "accidental",
    /// A row whose first barline is missing.
    BarlineMissing = "barline-missing",
    /// Parentheses with nothing between them.
    EmptyGroup = "empty-group",
    /// The letter of a note in lower case.
    LetterCase = "letter-case",
    /// A line that cannot stand in this block.
    MisplacedLine = "misplaced-line",
    /// Parentheses within parentheses beyond the limit.
    NestedTooDeep = "nested-too-deep",
    /// A number outside the numbers that make sense at its place.
    NumberRange = "number-range",
    /// A note without octave number.
    OctaveMissing = "octave-missing",
    /// An octave outside 0 to 9.
    OctaveRange = "octave-range",
    /// A title, name or reason without quotation marks, or with typographic ones.
    QuotesMissing = "quotes-missing",
    /// A row that does not begin with the name of a voice.
    RowNameMissing = "row-name-missing",
    /// Text where nothing more was expected.
    StrayText = "stray-text",
    /// `(` without `)`.
    UnclosedGroup = "unclosed-group",
    /// Text without closing quotation mark.
    UnclosedText = "unclosed-text",
    /// A letter that is no note name.
    UnknownLetter = "unknown-letter",
    /// A word that the notation does not have at this place.
    UnknownWord = "unknown-word",
    /// `)` without `(`.
    UnopenedGroup = "unopened-group",
    /// Something in a bar of a voice that is no note.
    UnreadableNote = "unreadable-note",
    /// Something in a bar of a harmony row that is no numeral.
    UnreadableNumeral = "unreadable-numeral",
    /// A value that is missing after its word.
    ValueExpected = "value-expected",
}

impl Problem {
    pub(crate) fn new(kind: ProblemKind, range: TextRange, message: impl Into<String>) -> Self {
        Self { kind, range, message: message.into(), hint: None, mends: Vec::new() }
    }

    pub(crate) fn hint(mut self, hint: &'static str) -> Self {
        self.hint = Some(hint);
        self
    }

    /// Adds a mend that writes `text` in the place of what could not be read.
    pub(crate) fn write(self, text: impl Into<String>) -> Self {
        let range = self.range;
        self.write_at(range, text)
    }

    /// Adds one mend for each of the texts that could stand in the place of what is there.
    pub(crate) fn write_any<T: Into<String>>(self, texts: impl IntoIterator<Item = T>) -> Self {
        texts.into_iter().fold(self, Self::write)
    }

    /// Adds a mend that writes `text` at another place.
    pub(crate) fn write_at(self, range: TextRange, text: impl Into<String>) -> Self {
        let text = text.into();
        self.mend(format!("Write {}", shown(text.trim())), range, text)
    }

    /// Adds a mend that takes away `text`, which could not be read.
    pub(crate) fn remove(self, text: &str) -> Self {
        let range = self.range;
        self.mend(format!("Remove {}", shown(text)), range, String::new())
    }

    /// Adds a mend.
    pub(crate) fn mend(mut self, title: String, range: TextRange, text: String) -> Self {
        self.mends.push(Mend { title, range, text });
        self
    }
}

/// `text` as it is shown in a message: marked off, and cut short where it is long.
pub(crate) fn shown(text: &str) -> String {
    match text.char_indices().nth(LONGEST_SHOWN) {
        Some((end, _)) => format!("`{}…`", &text[..end]),
        None => format!("`{text}`"),
    }
}

/// The words between which a reader can choose, as in `at` or `to`.
pub(crate) fn one_of(words: &[&str]) -> String {
    let marked: Vec<_> = words.iter().map(|word| format!("`{word}`")).collect();
    match marked.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} or {last}", rest.join(", ")),
        _ => marked.concat(),
    }
}

/// Characters of the sheet that a message repeats at most.
const LONGEST_SHOWN: usize = 32;

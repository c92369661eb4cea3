//! The typed view: what a block says, as plain values. It is read from the tree on every call and
//! takes every tree, however much of it could not be read; what is missing or unreadable is `None`.
//! It must not know how the text was taken apart, nor any music. All ranges count in bytes from the
//! start of the block.

mod bars;
mod licence;
mod read;
mod rows;
mod settings;
mod stretches;
mod systems;

pub use bars::{Bar, Item, ItemKind, NoteItem};
pub use licence::{Licence, Place};
pub use rows::{HarmonyRow, LineRow, Role, Row, RowText, VoiceRow};
pub use settings::{Setting, SettingValue, Use};
pub(crate) use systems::numbers as system_numbers;

use rowan::{TextRange, TextSize};

use crate::block::BlockKind;
use crate::syntax::{SyntaxKind, SyntaxNode};

/// A block of a sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Block {
    /// What stands before the first cantus or exercise.
    Preamble(Preamble),
    /// The definition of a cantus.
    Cantus(CantusBlock),
    /// An exercise.
    Exercise(ExerciseBlock),
}

impl Block {
    pub(crate) fn new(kind: BlockKind, node: SyntaxNode) -> Self {
        match kind {
            BlockKind::Preamble => Self::Preamble(Preamble(node)),
            BlockKind::Cantus => Self::Cantus(CantusBlock(node)),
            BlockKind::Exercise => Self::Exercise(ExerciseBlock(node)),
        }
    }

    /// The settings that could be read, in the order of the text.
    pub fn settings(&self) -> Vec<Setting> {
        settings::settings(self.node())
    }

    /// The sheets whose cantus definitions are taken in.
    pub fn uses(&self) -> Vec<Use> {
        settings::uses(self.node())
    }

    /// The names and paths of rulebooks that are set, in the order of the text.
    pub fn rulebooks(&self) -> Vec<String> {
        settings::rulebooks(self.node())
    }

    /// What is written in the block: from its first word or sign to its last, comments left aside. Empty
    /// if nothing is.
    pub fn written_range(&self) -> TextRange {
        stretches::written(self.node())
    }

    /// Comments on lines of their own, those on neighbouring lines together.
    pub fn comments(&self) -> Vec<TextRange> {
        stretches::comments(self.node())
    }

    /// The rows that sound together, system by system; none but for an exercise.
    pub fn systems(&self) -> Vec<Vec<Row>> {
        match self {
            Self::Exercise(block) => block.systems(),
            Self::Preamble(_) | Self::Cantus(_) => Vec::new(),
        }
    }

    /// What lies around a byte, from a single word or sign outwards: groups, the bar, the line. Each holds
    /// the one before and is longer.
    pub fn around(&self, offset: TextSize) -> Vec<TextRange> {
        stretches::around(self.node(), offset)
    }

    fn node(&self) -> &SyntaxNode {
        match self {
            Self::Preamble(block) => &block.0,
            Self::Cantus(block) => &block.0,
            Self::Exercise(block) => &block.0,
        }
    }
}

/// What stands before the first cantus or exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Preamble(SyntaxNode);

/// The definition of a cantus.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CantusBlock(SyntaxNode);

/// An exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ExerciseBlock(SyntaxNode);

impl Preamble {
    /// The settings that could be read, in the order of the text.
    pub fn settings(&self) -> Vec<Setting> {
        settings::settings(&self.0)
    }
}

impl CantusBlock {
    /// The name of the cantus.
    pub fn name(&self) -> Option<String> {
        read::token_text(&self.head()?, SyntaxKind::Name)
    }

    /// Where the name stands.
    pub fn name_range(&self) -> Option<TextRange> {
        read::token_range(&self.head()?, SyntaxKind::Name)
    }

    /// The opening line, without white space and comment.
    pub fn head_range(&self) -> TextRange {
        read::head_range(&self.0)
    }

    /// The rows of the cantus, in the order of the text; each carries on the bars of the one before.
    pub fn rows(&self) -> Vec<LineRow> {
        rows::line_rows(&self.0)
    }

    /// The settings that could be read, in the order of the text.
    pub fn settings(&self) -> Vec<Setting> {
        settings::settings(&self.0)
    }

    fn head(&self) -> Option<SyntaxNode> {
        read::first_line(&self.0, SyntaxKind::CantusLine)
    }
}

impl ExerciseBlock {
    /// The title, without quotation marks.
    pub fn title(&self) -> Option<String> {
        read::quoted(&self.head()?)
    }

    /// Where the title stands, with its quotation marks.
    pub fn title_range(&self) -> Option<TextRange> {
        read::token_range(&self.head()?, SyntaxKind::Text)
    }

    /// The opening line, without white space and comment.
    pub fn head_range(&self) -> TextRange {
        read::head_range(&self.0)
    }

    /// The rows of voices and of numerals, in the order of the text.
    pub fn rows(&self) -> Vec<Row> {
        rows::rows(&self.0)
    }

    /// The same rows, those together that sound together.
    pub fn systems(&self) -> Vec<Vec<Row>> {
        rows::systems(&self.0)
    }

    /// The licences, in the order of the text.
    pub fn licences(&self) -> Vec<Licence> {
        licence::licences(&self.0)
    }

    /// The settings that could be read, in the order of the text.
    pub fn settings(&self) -> Vec<Setting> {
        settings::settings(&self.0)
    }

    fn head(&self) -> Option<SyntaxNode> {
        read::first_line(&self.0, SyntaxKind::ExerciseLine)
    }
}

//! The settings of a block, and the sheets that it takes in. They must not know which of two settings
//! holds, nor whether a path or a rulebook exists.

use rowan::TextRange;

use super::read;
use crate::parser::{fraction, points_number, species_number};
use crate::spelling::Spelling;
use crate::syntax::{SyntaxKind, SyntaxNode};
use crate::words::{MODES, find, misspelling_of};

/// A line that sets something for the block, or for all that follows the preamble.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Setting {
    /// What is set.
    pub value: SettingValue,
    /// The line, without white space and comment.
    pub range: TextRange,
    /// The value on the line.
    pub value_range: TextRange,
}

/// What a setting sets.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SettingValue {
    /// The key; a part that is missing or unreadable is `None`.
    Key {
        /// The tonic, without octave.
        tonic: Option<Spelling>,
        /// The mode, in lower case; always one of the notation's modes.
        mode: Option<String>,
    },
    /// The meter; both numbers are at least 1.
    Meter {
        /// Notes in a bar.
        beats: u32,
        /// The value of each: the denominator of the fraction of a whole note.
        unit: u32,
    },
    /// The species, 1 to 5.
    Species(u32),
    /// The name or the path of a rulebook.
    Rulebook(String),
    /// Who wrote what follows.
    By(String),
    /// How many points an exercise is worth, 1 to 1000.
    Points(u32),
    /// Until when it is to be handed in, in words.
    Deadline(String),
}

/// A sheet whose cantus definitions are taken in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Use {
    /// The path, relative to this sheet.
    pub path: String,
    /// The line, without white space and comment.
    pub range: TextRange,
    /// The path on the line, with its quotation marks.
    pub path_range: TextRange,
}

pub(super) fn settings(block: &SyntaxNode) -> Vec<Setting> {
    block.children().filter_map(|line| setting(&line)).collect()
}

pub(super) fn uses(block: &SyntaxNode) -> Vec<Use> {
    read::lines(block, SyntaxKind::UseLine).filter_map(|line| used(&line)).collect()
}

pub(super) fn rulebooks(block: &SyntaxNode) -> Vec<String> {
    read::lines(block, SyntaxKind::RulebookLine).filter_map(|line| name(&line)).collect()
}

fn setting(line: &SyntaxNode) -> Option<Setting> {
    let value = match line.kind() {
        SyntaxKind::KeyLine => key(line),
        SyntaxKind::MeterLine => meter(line),
        SyntaxKind::SpeciesLine => species(line),
        SyntaxKind::RulebookLine => name(line).map(SettingValue::Rulebook),
        SyntaxKind::ByLine => read::quoted(line).map(SettingValue::By),
        SyntaxKind::DeadlineLine => read::quoted(line).map(SettingValue::Deadline),
        SyntaxKind::PointsLine => points(line),
        _ => None,
    }?;
    Some(Setting { value, range: read::trimmed(line), value_range: value_range(line) })
}

fn used(line: &SyntaxNode) -> Option<Use> {
    let path_range = read::token_range(line, SyntaxKind::Text)?;
    Some(Use { path: read::quoted(line)?, range: read::trimmed(line), path_range })
}

fn key(line: &SyntaxNode) -> Option<SettingValue> {
    let tonic = read::token(line, SyntaxKind::PitchClass);
    let tonic = tonic.and_then(|token| Spelling::read(token.text()));
    let mode = mode(line).map(str::to_owned);
    (tonic.is_some() || mode.is_some()).then_some(SettingValue::Key { tonic, mode })
}

fn mode(line: &SyntaxNode) -> Option<&'static str> {
    let mut after = read::tokens(line).skip_while(|token| !is_word(token.kind())).skip(1);
    let mode = after.find(|token| is_word(token.kind()))?;
    find(mode.text(), MODES).or_else(|| misspelling_of(mode.text(), MODES))
}

/// Whether a token is the first word of the line or a mode, well spelled or not.
fn is_word(kind: SyntaxKind) -> bool {
    matches!(kind, SyntaxKind::Keyword | SyntaxKind::Misspelt | SyntaxKind::Mode)
}

fn meter(line: &SyntaxNode) -> Option<SettingValue> {
    let (beats, unit) = fraction(read::token(line, SyntaxKind::Fraction)?.text())?;
    Some(SettingValue::Meter { beats, unit })
}

fn species(line: &SyntaxNode) -> Option<SettingValue> {
    let number = species_number(read::token(line, SyntaxKind::Number)?.text())?;
    Some(SettingValue::Species(number))
}

fn points(line: &SyntaxNode) -> Option<SettingValue> {
    let number = points_number(read::token(line, SyntaxKind::Number)?.text())?;
    Some(SettingValue::Points(number))
}

fn name(line: &SyntaxNode) -> Option<String> {
    read::token_text(line, SyntaxKind::Name).or_else(|| read::quoted(line))
}

/// What stands on the line after its first word.
fn value_range(line: &SyntaxNode) -> TextRange {
    let written = read::tokens(line).filter(|token| !token.kind().is_trivia()).skip(1);
    let ranges = written.map(|token| token.text_range());
    ranges.reduce(TextRange::cover).unwrap_or_else(|| read::trimmed(line))
}

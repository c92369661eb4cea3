//! Text to tree: one block, line by line. Each file of this folder reads one sort of line or one
//! part of it. The parser takes in every text; what it cannot read it keeps in the tree and reports.
//! It must not know anything about the music that it reads.

mod bars;
mod cursor;
mod keys;
mod licences;
mod lines_kept;
mod notes;
mod numerals;
mod openers;
mod recovery;
mod rows;
mod settings;
mod unreadable;

use rowan::{GreenNode, NodeCache, TextRange};

use crate::block::BlockKind;
use crate::lines::lines;
use crate::problem::Problem;
use crate::syntax::SyntaxKind;
use crate::words;
use cursor::Parser;

pub(crate) use licences::{bar_and_beat, number};
pub(crate) use settings::{fraction, points_number, species_number};

/// Parses the text of one block of the given kind. Parts of the tree that are `known` are shared.
pub(crate) fn parse(
    kind: BlockKind,
    text: &str,
    known: &mut NodeCache,
) -> (GreenNode, Vec<Problem>) {
    let mut parser = Parser::new(known);
    parser.start(SyntaxKind::Block);
    for text in lines(text) {
        parser.take(text);
        line(&mut parser, kind);
    }
    parser.finish();
    parser.end()
}

pub(crate) use lines_kept::{Lines, parse_again, parse_lines};

/// What a line is, as its first word says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Line {
    Use,
    Rulebook,
    Meter,
    Key,
    Species,
    By,
    Points,
    Deadline,
    Cantus,
    Exercise,
    CantusRow,
    VoiceRow,
    HarmonyRow,
    Allow,
}

impl Line {
    /// What a line is that begins with `word`, which must be a word of the notation.
    fn of(word: &str) -> Self {
        match word {
            "use" => Self::Use,
            "rulebook" => Self::Rulebook,
            "meter" => Self::Meter,
            "key" => Self::Key,
            "species" => Self::Species,
            "by" => Self::By,
            "points" => Self::Points,
            "deadline" => Self::Deadline,
            "cantus" => Self::Cantus,
            "exercise" => Self::Exercise,
            "line" => Self::CantusRow,
            "harmony" => Self::HarmonyRow,
            "allow" => Self::Allow,
            _ => Self::VoiceRow,
        }
    }

    /// Whether the line may stand in a block of the given kind.
    fn belongs_in(self, kind: BlockKind) -> bool {
        match self {
            Self::CantusRow => kind == BlockKind::Cantus,
            Self::VoiceRow | Self::HarmonyRow | Self::Allow => kind == BlockKind::Exercise,
            _ => true,
        }
    }

    fn node(self) -> SyntaxKind {
        match self {
            Self::Use => SyntaxKind::UseLine,
            Self::Rulebook => SyntaxKind::RulebookLine,
            Self::Meter => SyntaxKind::MeterLine,
            Self::Key => SyntaxKind::KeyLine,
            Self::Species => SyntaxKind::SpeciesLine,
            Self::By => SyntaxKind::ByLine,
            Self::Points => SyntaxKind::PointsLine,
            Self::Deadline => SyntaxKind::DeadlineLine,
            Self::Cantus => SyntaxKind::CantusLine,
            Self::Exercise => SyntaxKind::ExerciseLine,
            Self::CantusRow => SyntaxKind::LineRow,
            Self::VoiceRow => SyntaxKind::VoiceRow,
            Self::HarmonyRow => SyntaxKind::HarmonyRow,
            Self::Allow => SyntaxKind::LicenceLine,
        }
    }
}

fn line(parser: &mut Parser, kind: BlockKind) {
    if parser.is_blank_line() {
        parser.start(SyntaxKind::BlankLine);
    } else if let Some(word) = words::find(parser.first_run(), words::ALL) {
        known_line(parser, kind, Line::of(word));
    } else {
        recovery::unknown_line(parser, kind);
    }
    parser.finish_line();
}

fn known_line(parser: &mut Parser, kind: BlockKind, line: Line) {
    parser.start(line.node());
    parser.skip_blanks();
    let range = parser.bump_run(SyntaxKind::Keyword);
    if !line.belongs_in(kind) {
        parser.report(recovery::misplaced(line, kind, range));
    }
    after_first_word(parser, line, range);
}

/// Reads the rest of a line whose first word, at `head`, has been read.
fn after_first_word(parser: &mut Parser, line: Line, head: TextRange) {
    match line {
        Line::Use => settings::text(parser, head, settings::TextValue::PATH),
        Line::By => settings::text(parser, head, settings::TextValue::WRITER),
        Line::Deadline => settings::text(parser, head, settings::TextValue::DEADLINE),
        Line::Points => settings::points(parser, head),
        Line::Rulebook => settings::rulebook(parser, head),
        Line::Meter => settings::meter(parser, head),
        Line::Key => keys::key(parser, head),
        Line::Species => settings::species(parser, head),
        Line::Cantus => openers::cantus(parser, head),
        Line::Exercise => openers::exercise(parser),
        Line::CantusRow => rows::cantus(parser, head),
        Line::VoiceRow => rows::voice(parser, head),
        Line::HarmonyRow => rows::harmony(parser, head),
        Line::Allow => licences::licence(parser, head),
    }
}

//! What can stand in a bar of a voice: notes, holds, rests and holes. This file must not know in
//! which group or bar it reads.

use rowan::TextRange;

use super::cursor::Parser;
use super::unreadable;
use crate::problem::{Problem, ProblemKind, shown};
use crate::spelling::Spelling;
use crate::syntax::SyntaxKind;
use crate::token::Token;

/// The note read last in a row, by which missing octaves are guessed.
#[derive(Clone, Copy, Debug)]
pub(super) struct Latest {
    spelling: Spelling,
    octave: i8,
}

impl Default for Latest {
    fn default() -> Self {
        Self { spelling: Spelling { letter: 'C', accidental: 0 }, octave: 4 }
    }
}

impl Latest {
    /// The two octaves in which a note so spelled comes nearest to this one, the nearer one first.
    pub(super) fn octaves(self, spelling: Spelling) -> Vec<i8> {
        let place = |spelling: Spelling, octave: i8| 7 * i32::from(octave) + spelling.step();
        let here = place(self.spelling, self.octave);
        let mut octaves: Vec<i8> = (0..=9).collect();
        octaves.sort_by_key(|octave| (place(spelling, *octave) - here).abs());
        octaves.truncate(2);
        octaves
    }
}

/// Reads one token of a bar, and says how many shares it takes.
pub(super) fn item(parser: &mut Parser, latest: &mut Latest) -> usize {
    let text = parser.text();
    match parser.peek() {
        Some(Token::Hyphen) => taken(parser, SyntaxKind::Hold),
        Some(Token::Hole) => taken(parser, SyntaxKind::Hole),
        Some(Token::Pitch) => note(parser, latest),
        Some(Token::Word) if text.eq_ignore_ascii_case("rest") => taken(parser, SyntaxKind::Rest),
        Some(Token::Word) => word(parser, latest),
        _ => broken(parser, *latest),
    }
}

fn taken(parser: &mut Parser, kind: SyntaxKind) -> usize {
    parser.bump(kind);
    1
}

fn note(parser: &mut Parser, latest: &mut Latest) -> usize {
    remember(parser.text(), latest);
    taken(parser, SyntaxKind::Pitch)
}

fn word(parser: &mut Parser, latest: &mut Latest) -> usize {
    let text = parser.text();
    if let Some(spelling) = Spelling::read(text) {
        let range = parser.bump(SyntaxKind::PitchClass);
        parser.report(octave_missing(text, spelling, range, *latest));
        return 1;
    }
    let kept = text.trim_end_matches(PUNCTUATION);
    match Spelling::read_pitch(kept) {
        Some((_, Some(_))) => punctuated(parser, kept, latest),
        _ if kept.is_empty() => punctuation(parser),
        _ => broken(parser, *latest),
    }
}

/// Marks that are typed by habit and mean nothing here.
pub(super) const PUNCTUATION: [char; 5] = [',', ';', '.', ':', '!'];

fn punctuated(parser: &mut Parser, note: &str, latest: &mut Latest) -> usize {
    let marks = &parser.text()[note.len()..];
    let (_, range) = parser.bump_split(note.len(), (SyntaxKind::Pitch, SyntaxKind::Stray));
    parser.report(stray_marks(marks, range));
    remember(note, latest);
    1
}

fn punctuation(parser: &mut Parser) -> usize {
    let text = parser.text();
    let range = parser.bump(SyntaxKind::Stray);
    parser.report(stray_marks(text, range));
    0
}

fn stray_marks(marks: &str, range: TextRange) -> Problem {
    let message = format!("Notes stand side by side without {}; expected a space.", shown(marks));
    Problem::new(ProblemKind::StrayText, range, message).remove(marks)
}

fn broken(parser: &mut Parser, latest: Latest) -> usize {
    let text = parser.text();
    let range = parser.bump(SyntaxKind::Broken);
    parser.report(unreadable::note(text, range, latest));
    1
}

fn remember(text: &str, latest: &mut Latest) {
    if let Some((spelling, Some(octave))) = Spelling::read_pitch(text) {
        *latest = Latest { spelling, octave };
    }
}

fn octave_missing(text: &str, spelling: Spelling, range: TextRange, latest: Latest) -> Problem {
    let octaves = latest.octaves(spelling);
    let message = format!("{} has no octave; expected a number after it.", shown(text));
    Problem::new(ProblemKind::OctaveMissing, range, message)
        .hint("C4 is middle C, and every octave begins with its C.")
        .write_any(octaves.iter().map(|octave| format!("{spelling}{octave}")))
}

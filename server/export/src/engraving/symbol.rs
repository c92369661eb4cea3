//! Which sign of the music font stands for what: code points of the Standard Music Font Layout (`SMuFL`
//! 1.4), and the measures that the font's makers publish with it. Knows no positions.

use bicinium_theory::{Accidental, NoteValue};

use crate::beaming;

/// Thickness of a line of a staff, in staff spaces; these five from the metadata of Bravura 1.392.
pub(super) const STAFF_LINE: f64 = 0.13;
/// Thickness of a stem.
pub(super) const STEM: f64 = 0.12;
/// Thickness of a beam.
pub(super) const BEAM: f64 = 0.5;
/// Distance of two beams, from edge to edge.
pub(super) const BEAM_GAP: f64 = 0.25;
/// Thickness of a ledger line.
pub(super) const LEDGER: f64 = 0.16;
/// How far a ledger line reaches beyond the head.
pub(super) const LEDGER_REACH: f64 = 0.35;
/// Thickness of a plain barline.
pub(super) const THIN_BARLINE: f64 = 0.16;
/// Thickness of the last barline, and of the bracket.
pub(super) const THICK_BARLINE: f64 = 0.5;
/// How far above or below the middle of a head its stem begins.
pub(super) const STEM_START: f64 = 0.168;

pub(super) const G_CLEF: char = '\u{e050}';
pub(super) const C_CLEF: char = '\u{e05c}';
pub(super) const F_CLEF: char = '\u{e062}';
pub(super) const DOT: char = '\u{e1e7}';
pub(super) const PARENTHESIS_LEFT: char = '\u{e26a}';
pub(super) const PARENTHESIS_RIGHT: char = '\u{e26b}';
pub(super) const BRACKET_TOP: char = '\u{e003}';
pub(super) const BRACKET_BOTTOM: char = '\u{e004}';
pub(super) const SMALL_DOT: char = '\u{ecb7}';

/// All signs that are used; their measures are kept at hand.
pub(super) const ALL: &str = "\u{e050}\u{e05c}\u{e062}\u{e1e7}\u{e26a}\u{e26b}\u{e003}\u{e004}\u{ecb7}\
    \u{e0a0}\u{e0a2}\u{e0a3}\u{e0a4}\u{e240}\u{e241}\u{e242}\u{e243}\u{e244}\u{e245}\u{e246}\u{e247}\
    \u{e4e2}\u{e4e3}\u{e4e4}\u{e4e5}\u{e4e6}\u{e4e7}\u{e4e8}\u{e4e9}\
    \u{eca0}\u{eca2}\u{eca3}\u{eca5}\u{eca7}\u{eca9}\u{ecab}\u{ecad}\
    \u{e260}\u{e261}\u{e262}\u{e263}\u{e264}\
    \u{e080}\u{e081}\u{e082}\u{e083}\u{e084}\u{e085}\u{e086}\u{e087}\u{e088}\u{e089}\
    \u{ea50}\u{ea51}\u{ea52}\u{ea54}\u{ea55}\u{ea57}\u{ea5b}\u{ea5d}\u{ea60}\u{ea61}";

/// The accidental that a sign of plain text stands for.
pub(super) fn accidental_in_words(sign: char) -> Option<char> {
    match sign {
        '♭' => Some('\u{e260}'),
        '♮' => Some('\u{e261}'),
        '♯' => Some('\u{e262}'),
        '\u{1d12a}' => Some('\u{e263}'),
        '\u{1d12b}' => Some('\u{e264}'),
        _ => None,
    }
}

/// The head of a note.
pub(super) fn head(value: NoteValue) -> char {
    match value {
        NoteValue::Breve => '\u{e0a0}',
        NoteValue::Whole => '\u{e0a2}',
        NoteValue::Half => '\u{e0a3}',
        _ => '\u{e0a4}',
    }
}

/// The flag at the end of an upward stem, and at that of a downward one.
pub(super) fn flags(value: NoteValue) -> Option<[char; 2]> {
    match beaming::count(value) {
        0 => None,
        1 => Some(['\u{e240}', '\u{e241}']),
        2 => Some(['\u{e242}', '\u{e243}']),
        3 => Some(['\u{e244}', '\u{e245}']),
        _ => Some(['\u{e246}', '\u{e247}']),
    }
}

/// A rest.
pub(super) fn rest(value: NoteValue) -> char {
    match value {
        NoteValue::Breve => '\u{e4e2}',
        NoteValue::Whole => '\u{e4e3}',
        NoteValue::Half => '\u{e4e4}',
        NoteValue::Quarter => '\u{e4e5}',
        NoteValue::Eighth => '\u{e4e6}',
        NoteValue::Sixteenth => '\u{e4e7}',
        NoteValue::ThirtySecond => '\u{e4e8}',
        NoteValue::SixtyFourth => '\u{e4e9}',
    }
}

/// The small note that tells a length.
pub(super) fn small_note(value: NoteValue) -> char {
    match value {
        NoteValue::Breve => '\u{eca0}',
        NoteValue::Whole => '\u{eca2}',
        NoteValue::Half => '\u{eca3}',
        NoteValue::Quarter => '\u{eca5}',
        NoteValue::Eighth => '\u{eca7}',
        NoteValue::Sixteenth => '\u{eca9}',
        NoteValue::ThirtySecond => '\u{ecab}',
        NoteValue::SixtyFourth => '\u{ecad}',
    }
}

/// An accidental.
pub(super) fn accidental(accidental: Accidental) -> char {
    match accidental.value() {
        ..=-2 => '\u{e264}',
        -1 => '\u{e260}',
        0 => '\u{e261}',
        1 => '\u{e262}',
        2.. => '\u{e263}',
    }
}

/// The figures of a number in a time signature.
pub(super) fn time_digits(number: u8) -> String {
    spelled(
        number.into(),
        "\u{e080}\u{e081}\u{e082}\u{e083}\u{e084}\u{e085}\u{e086}\u{e087}\u{e088}\u{e089}",
    )
}

/// The figures of an interval.
pub(super) fn figures(number: u32) -> String {
    spelled(
        number,
        "\u{ea50}\u{ea51}\u{ea52}\u{ea54}\u{ea55}\u{ea57}\u{ea5b}\u{ea5d}\u{ea60}\u{ea61}",
    )
}

fn spelled(number: u32, digits: &str) -> String {
    let digit = |of: char| digits.chars().nth(usize::try_from(of.to_digit(10)?).ok()?);
    number.to_string().chars().filter_map(digit).collect()
}

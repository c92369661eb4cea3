//! What may have been meant by something in a bar that is not a note as this notation writes it. It
//! must not know the key or the bar; the note before is all that it is told.

use rowan::TextRange;

use super::notes::{Latest, PUNCTUATION};
use crate::problem::{Problem, ProblemKind, shown};
use crate::spelling::{Spelling, accidental, german_accidental};

/// Says what is wrong with `text`, and which notes may have been meant.
pub(super) fn note(text: &str, range: TextRange, latest: Latest) -> Problem {
    let (kind, reason, meant) = match Parts::of(text.trim_end_matches(PUNCTUATION)) {
        Some(parts) if another_sign(text).is_none() => {
            let (kind, reason) = parts.fault();
            (kind, reason, parts.meant(latest))
        }
        _ => (ProblemKind::UnreadableNote, EXPECTED, other_meant(text).into_iter().collect()),
    };
    let message = format!("{} is not read as a note: {reason}.", shown(text));
    Problem::new(kind, range, message).write_any(meant)
}

const EXPECTED: &str = "expected a note such as `C4`, `rest`, `-` or `?`";
const LETTERS: &str = "expected a letter from A to G";
const SIGNS: &str = "expected one of the accidentals `#`, `b`, `x` and `bb` after the letter";
const ORDER: &str = "expected the accidental between letter and octave";
const GERMAN_B: &str = "the note a semitone below C is `B`, the one below that `Bb`";
const CAPITALS: &str = "expected the letter in upper case";
const OCTAVES: &str = "expected an octave from 0 to 9";

/// A note taken apart, however wrong each part may be.
struct Parts<'t> {
    letter: char,
    accidental: &'t str,
    octave: &'t str,
    order: Order,
}

/// In which order the parts of a note follow its letter.
#[derive(PartialEq)]
enum Order {
    AccidentalFirst,
    OctaveFirst,
}

impl<'t> Parts<'t> {
    /// Takes apart a text that looks like a note; `None` if it does not.
    fn of(text: &'t str) -> Option<Self> {
        let letter = text.chars().next().filter(char::is_ascii_alphabetic)?;
        let rest = &text[1..];
        let before = &rest[..rest.find(of_octave).unwrap_or(rest.len())];
        let after = rest[before.len()..].trim_start_matches(of_octave);
        let octave = &rest[before.len()..rest.len() - after.len()];
        let (accidental, order) = match (before, after) {
            (before, "") => (before, Order::AccidentalFirst),
            ("", after) => (after, Order::OctaveFirst),
            _ => return None,
        };
        let signs = accidental.chars().all(|sign| "#♯b♭x𝄪𝄫♮".contains(sign));
        let known = signs || german_accidental(accidental).is_some();
        known.then_some(Self { letter, accidental, octave, order })
    }

    /// The first thing that is wrong.
    fn fault(&self) -> (ProblemKind, &'static str) {
        if self.capital() > 'H' {
            (ProblemKind::UnknownLetter, LETTERS)
        } else if accidental(self.accidental).is_none() {
            (ProblemKind::Accidental, SIGNS)
        } else if self.order == Order::OctaveFirst {
            (ProblemKind::Accidental, ORDER)
        } else if self.capital() == 'H' {
            (ProblemKind::UnknownLetter, GERMAN_B)
        } else if self.letter.is_ascii_lowercase() {
            (ProblemKind::LetterCase, CAPITALS)
        } else if self.octave.is_empty() {
            (ProblemKind::OctaveMissing, OCTAVES)
        } else {
            (ProblemKind::OctaveRange, OCTAVES)
        }
    }

    /// The notes that may have been meant, the likeliest first.
    fn meant(&self, latest: Latest) -> Vec<String> {
        let letter = if self.capital() == 'H' { 'B' } else { self.capital() };
        let alteration = accidental(self.accidental).or_else(|| german_accidental(self.accidental));
        let Some(accidental) = alteration.filter(|_| letter <= 'G') else { return Vec::new() };
        let spelling = Spelling { letter, accidental };
        let octave = self.octave.parse().ok().filter(|octave| (0..=9).contains(octave));
        let octaves = octave.map_or_else(|| latest.octaves(spelling), |octave| vec![octave]);
        octaves.iter().map(|octave| format!("{spelling}{octave}")).collect()
    }

    fn capital(&self) -> char {
        self.letter.to_ascii_uppercase()
    }
}

fn of_octave(char: char) -> bool {
    char == '-' || char.is_ascii_digit()
}

fn other_meant(text: &str) -> Option<String> {
    another_sign(text)
        .map(str::to_owned)
        .or_else(|| side_by_side(text))
        .or_else(|| with_parentheses(text))
}

/// What this notation writes for a sign or word of other notations.
fn another_sign(text: &str) -> Option<&'static str> {
    match text.to_lowercase().as_str() {
        "r" | "z" | "rst" | "res" | "rests" | "pause" | "silence" => Some("rest"),
        "–" | "—" | "−" | "‐" | "_" | "~" => Some("-"),
        _ => None,
    }
}

/// Notes that were written without space between them, with spaces.
fn side_by_side(text: &str) -> Option<String> {
    let notes: Vec<_> = text.split_inclusive(|char: char| char.is_ascii_digit()).collect();
    notes.iter().copied().all(is_note).then(|| notes.join(" "))
}

/// A note at which a group begins or ends by another bracket than the notation's.
fn with_parentheses(text: &str) -> Option<String> {
    let round = text.replace(['[', '{'], "(").replace([']', '}'], ")");
    is_note(round.trim_start_matches('(').trim_end_matches(')')).then_some(round)
}

fn is_note(text: &str) -> bool {
    matches!(Spelling::read_pitch(text), Some((_, Some(_))))
}

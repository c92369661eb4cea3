//! What a writer does to a sheet: choosing other notes, leaving holes, typing, taking back.

use std::ops::Range;

use super::dice::Dice;

/// A change of a text.
pub struct Edit {
    /// The bytes that go.
    pub bytes: Range<usize>,
    /// What comes in their place.
    pub insert: String,
}

/// A sheet that has grown by more than this is begun anew, in bytes.
const GROWTH: usize = 3_000;

/// What may be typed anywhere, sensible or not.
const TYPED: [&str; 16] = [
    "F4",
    "|",
    " ",
    "\n",
    "\"",
    "?",
    "(",
    ")",
    "-",
    "b",
    "♭",
    "𝄪",
    "rest",
    "//",
    "\nallow crossing",
    "\nexercise\n  bass | C3 |\n",
];

/// An edit of this text, which began as `fair`.
pub fn edit(text: &str, fair: &str, dice: &mut Dice) -> Edit {
    if text.len() > fair.len() + GROWTH || dice.below(40) == 0 {
        return Edit { bytes: 0..text.len(), insert: fair.to_owned() };
    }
    match dice.below(8) {
        0..5 => other_note(text, dice),
        5 | 6 => typed(text, dice),
        _ => deleted(text, dice),
    }
}

/// Another note, or a hole, in place of a note.
fn other_note(text: &str, dice: &mut Dice) -> Edit {
    let notes = notes(text);
    if notes.is_empty() {
        return typed(text, dice);
    }
    let bytes = dice.of(&notes).clone();
    let letter = dice.of(&["A", "B", "C", "D", "E", "F", "G", "F#", "B♭"]);
    let insert = match dice.below(12) {
        0 => "?".to_owned(),
        _ => format!("{letter}{}", 2 + dice.below(4)),
    };
    Edit { bytes, insert }
}

/// What looks like a note.
fn notes(text: &str) -> Vec<Range<usize>> {
    let words = text.split([' ', '|', '(', ')', '\n']).filter(|word| !word.is_empty());
    let start = |word: &str| word.as_ptr() as usize - text.as_ptr() as usize;
    let is_note = |word: &&str| {
        word.len() <= 6 && word.starts_with(|c| ('A'..='G').contains(&c)) || *word == "?"
    };
    words.filter(is_note).map(|word| start(word)..start(word) + word.len()).collect()
}

fn typed(text: &str, dice: &mut Dice) -> Edit {
    let at = place(text, dice);
    Edit { bytes: at..at, insert: (*dice.of(&TYPED)).to_owned() }
}

fn deleted(text: &str, dice: &mut Dice) -> Edit {
    let (from, to) = (place(text, dice), place(text, dice));
    let (from, to) = (from.min(to), from.max(to));
    let ends =
        text[from..to].char_indices().map(|(at, character)| from + at + character.len_utf8());
    let to = ends.take_while(|end| end - from <= 12).last().unwrap_or(from);
    Edit { bytes: from..to, insert: String::new() }
}

/// A byte at which a character begins or the text ends.
pub fn place(text: &str, dice: &mut Dice) -> usize {
    let at = dice.below(text.len() + 1);
    (0..=at).rev().find(|byte| text.is_char_boundary(*byte)).unwrap_or_default()
}

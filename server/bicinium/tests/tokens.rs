//! What words are in the music: whose notes they are, and which of them are dissonant.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use bicinium::features::tokens::{Part, Sounding, Token, tokens};
use bicinium_analysis::{Sheet, Shelf};

/// The words of a sheet for which something holds.
fn words(text: &str, holds: impl Fn(&Token) -> bool) -> Vec<String> {
    let snapshot = Sheet::new(text, Arc::new(Shelf::default())).snapshot();
    let of_block = |block: &bicinium_analysis::sheet::Placed| {
        let all = tokens(&block.judged).into_iter().filter(|token| holds(token));
        all.map(|token| text[block.in_sheet(token.range)].to_owned()).collect::<Vec<_>>()
    };
    snapshot.blocks().iter().flat_map(of_block).collect()
}

fn dissonant(text: &str) -> Vec<String> {
    words(text, |token| token.sound == Sounding::Dissonant)
}

#[test]
fn the_notes_of_a_given_voice_are_given_in_every_system() {
    let text = "cantus one\n  line | C4 | D4 |\n\nexercise\n  soprano cantus one | C5 |\n  \
                bass counter | C3 |\n\n  soprano | D5 (- rest) |\n  bass | D3 ? |\n";
    let given = words(text, |token| token.part == Part::Given);
    assert_eq!(given, ["C4", "D4", "C5", "D5", "(", "-", "rest", ")"]);
}

/// A passing note: a seventh between two thirds of the scale over D.
#[test]
fn a_passing_note_is_dissonant() {
    let text = "key C major\nexercise\n  species 2\n  soprano counter | D5 C5 | B4 |\n  \
                tenor cantus | D4 | G4 |\n";
    assert_eq!(dissonant(text), ["C5"]);
}

/// The seventh of the second bar is heard at the tie, not where the note is struck as an octave.
#[test]
fn a_suspension_is_dissonant_where_it_is_held() {
    let text = "key C major\nexercise\n  species 4\n  soprano counter | rest C5 | - B4 | C5 |\n  \
                tenor cantus | C4 | D4 | C4 |\n";
    assert_eq!(dissonant(text), ["-"]);
}

#[test]
fn consonances_are_not_dissonant() {
    let text = "exercise\n  species 1\n  soprano counter | C5 | D5 | C5 |\n  \
                tenor cantus | C4 | F4 | C4 |\n";
    assert_eq!(dissonant(text), Vec::<String>::new());
}

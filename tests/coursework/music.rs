//! What was done well in note against note, counted again from the bare names of the notes.

use serde_json::Value;

use crate::run::{class, list, marks, text};

/// A note as its staff place and its key on the keyboard.
type Note = (i32, i32);

fn note(name: &str) -> Note {
    let letter = i32::try_from("CDEFGAB".find(&name[..1]).expect("a letter")).expect("small");
    let octave: i32 = name[name.len() - 1..].parse().expect("an octave");
    let sharps = i32::from(name.contains(['#', '♯'])) - i32::from(name[1..].contains(['b', '♭']));
    let key = [0, 2, 4, 5, 7, 9, 11][usize::try_from(letter).expect("a place")];
    (octave * 7 + letter, octave * 12 + key + sharps)
}

fn notes(row: &str) -> Vec<Note> {
    let bars = row.split('|').skip(1).map(str::trim).filter(|bar| !bar.is_empty());
    bars.map(note).collect()
}

/// The counted parts of a merit of an answer, if it has it.
fn told(answer: &Value, kind: &str) -> Option<(u64, u64)> {
    let merit = list(&answer["merits"]).iter().find(|merit| merit["kind"] == kind)?;
    Some((merit["part"].as_u64()?, merit["whole"].as_u64()?))
}

/// The parts, if they are as large a share as is worth telling.
fn worth_telling(all: &[bool], of: usize, in_all: usize) -> Option<(u64, u64)> {
    let part = all.iter().filter(|one| **one).count();
    let is_large = all.len() >= 4 && part * in_all >= all.len() * of;
    is_large.then_some((u64::try_from(part).ok()?, u64::try_from(all.len()).ok()?))
}

#[test]
fn note_against_note_is_counted_from_the_notes() {
    let mut counted = 0;
    for student in list(&marks()["students"]) {
        let answer = &student["answers"][0];
        let path = class().join(text(&student["sheet"]));
        let sheet = std::fs::read_to_string(path).expect("the sheet is there");
        let exercise = sheet.split("exercise \"").find(|part| part.starts_with("Note against"));
        let mut rows = exercise.expect("an exercise").lines().filter(|line| line.contains('|'));
        let upper = notes(rows.next().expect("a row"));
        let lower = notes(rows.next().expect("a row"));
        if upper.len() != lower.len() {
            continue;
        }
        counted += 1;
        let moves: Vec<_> = upper.windows(2).zip(lower.windows(2)).collect();
        let both = moves.iter().map(|(up, low)| (up[1].0 - up[0].0, low[1].0 - low[0].0));
        let both = both.filter(|(up, low)| *up != 0 && *low != 0);
        let contrary: Vec<_> = both.map(|(up, low)| (up > 0) != (low > 0)).collect();
        assert_eq!(told(answer, "contrary-motion"), worth_telling(&contrary, 1, 2), "{student:#}");
        let thirds: Vec<_> =
            upper.iter().zip(&lower).map(|(up, low)| imperfect(*up, *low)).collect();
        assert_eq!(told(answer, "imperfect-consonances"), worth_telling(&thirds, 1, 2));
        let steps: Vec<_> =
            lower.windows(2).map(|pair| (pair[1].0 - pair[0].0).abs() == 1).collect();
        assert_eq!(told(answer, "steps"), worth_telling(&steps, 2, 3), "{student:#}");
        let highest = lower.iter().max().expect("notes");
        let times = lower.iter().filter(|note| *note == highest).count();
        assert_eq!(told(answer, "single-high-point").is_some(), times == 1, "{student:#}");
    }
    assert!(counted > 8, "{counted}");
}

/// A third or sixth, major or minor.
fn imperfect(upper: Note, lower: Note) -> bool {
    let (steps, keys) = ((upper.0 - lower.0).rem_euclid(7), (upper.1 - lower.1).rem_euclid(12));
    matches!((steps, keys), (2, 3 | 4) | (5, 8 | 9))
}

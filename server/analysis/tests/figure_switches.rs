//! Every answer that a school may give about figures: the same passages under each of them, in
//! several modes and meters, in both voices, against a cantus and against another counter. Each
//! stands between blank bars, so that its first bar is the second.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use bicinium_analysis::rules::{self, Group};
use bicinium_analysis::{Level, Sheet, Shelf};

/// A passage with its setting; the row with more notes is the counter.
#[derive(Clone, Copy)]
struct Passage {
    key: &'static str,
    meter: &'static str,
    species: u8,
    upper: &'static str,
    lower: &'static str,
    roles: [&'static str; 2],
}

/// A passage of a species in 2/2 with the counter above.
const fn above(
    species: u8,
    key: &'static str,
    counter: &'static str,
    cantus: &'static str,
) -> Passage {
    let roles = ["counter", "cantus"];
    Passage { key, meter: "2/2", species, upper: counter, lower: cantus, roles }
}

/// The same with the counter below.
const fn below(
    species: u8,
    key: &'static str,
    cantus: &'static str,
    counter: &'static str,
) -> Passage {
    let roles = ["cantus", "counter"];
    Passage { key, meter: "2/2", species, upper: cantus, lower: counter, roles }
}

impl Passage {
    const fn in_meter(self, meter: &'static str) -> Self {
        Self { meter, ..self }
    }

    const fn without_a_cantus(self) -> Self {
        Self { roles: ["counter"; 2], ..self }
    }

    fn sheet(&self) -> String {
        let Self { key, meter, species, upper, lower, roles } = self;
        format!(
            "rulebook own\nkey {key}\nmeter {meter}\nspecies {species}\n\nexercise\n  \
             soprano {} | | {upper} | |\n  tenor {} | | {lower} | |\n",
            roles[0], roles[1]
        )
    }

    /// Whether a school that extends another and gives an answer about figures finds no fault in
    /// the dissonances.
    fn passes(&self, base: &str, answer: &str) -> bool {
        let rulebook = format!(
            "name = \"own\"\ntitle = \"A school\"\nextends = \"{base}\"\n\n[figures]\n{answer}\n"
        );
        let mut books = Shelf::default();
        books.add(&rulebook).expect("a rulebook");
        let snapshot = Sheet::new(&self.sheet(), Arc::new(books)).snapshot();
        let findings: Vec<_> = snapshot.findings().map(|located| located.finding).collect();
        assert!(findings.iter().all(|found| found.level != Level::Notation), "{}", self.sheet());
        let is_dissonance =
            |rule: &str| rules::named(rule).is_some_and(|entry| entry.group == Group::Dissonance);
        !findings.iter().any(|found| found.level == Level::Fault && is_dissonance(found.rule))
    }

    /// Holds every answer to a question against whether the passage passes under it.
    #[track_caller]
    fn is_answered(&self, base: &str, question: &str, expected: &[(&str, bool)]) {
        for (answer, passes) in expected {
            let written = format!("{question} = \"{answer}\"");
            assert_eq!(self.passes(base, &written), *passes, "{base}, {written}\n{}", self.sheet());
        }
    }
}

mod strong {
    use super::{above, below};

    const PASSES: [(&str, bool); 3] =
        [("none", false), ("passing", true), ("within-one-harmony", true)];
    const TURNS: [(&str, bool); 3] =
        [("none", false), ("passing", false), ("within-one-harmony", true)];
    const LEAPS: [(&str, bool); 3] =
        [("none", false), ("passing", false), ("within-one-harmony", false)];

    #[test]
    fn a_passing_note_on_the_downbeat() {
        let upward = above(2, "D dorian", "F4 G4 | A4 B4", "D4 | B3");
        let downward = below(2, "C ionian", "C5 | B4", "A3 G3 | F3 E3");
        for passage in [upward, downward] {
            passage.is_answered("modal", "strong", &PASSES);
            passage.in_meter("4/2").is_answered("modal", "strong", &PASSES);
        }
        let triple = above(2, "D dorian", "D4 F4 G4 | A4 B4 D5", "D4 | B3").in_meter("3/2");
        triple.is_answered("modal", "strong", &PASSES);
    }

    #[test]
    fn a_neighbour_on_the_downbeat() {
        above(2, "D dorian", "F4 G4 | A4 G4", "D4 | B3").is_answered("modal", "strong", &TURNS);
        below(2, "C ionian", "C5 | B4", "A3 G3 | F3 G3").is_answered("modal", "strong", &TURNS);
    }

    #[test]
    fn a_passing_note_on_the_downbeat_that_goes_on_to_another_dissonance() {
        let diminished_fifth = above(3, "C ionian", "C5 B4 A4 G4 | F4 E4 D4 E4", "C4 | B3");
        diminished_fifth.is_answered("modal", "strong", &TURNS);
        diminished_fifth.in_meter("4/2").is_answered("modal", "strong", &TURNS);
    }

    #[test]
    fn a_dissonance_on_the_downbeat_that_leaps() {
        above(2, "D dorian", "F4 G4 | A4 D5", "D4 | B3").is_answered("modal", "strong", &LEAPS);
        above(2, "D dorian", "F4 D4 | A4 B4", "D4 | B3").is_answered("modal", "strong", &LEAPS);
    }

    #[test]
    fn under_a_new_harmony_it_passes_only_as_a_last_resort() {
        let new_harmony = [("none", false), ("passing", true), ("within-one-harmony", false)];
        below(2, "G major", "B4 | D5 | B4", "G3 F#3 | E3 D3 | G3").is_answered(
            "tonal",
            "strong",
            &new_harmony,
        );
        below(2, "D minor", "F4 | A4 | F4", "D3 C3 | B2 A2 | D3").is_answered(
            "tonal",
            "strong",
            &new_harmony,
        );
    }
}

mod rising {
    use super::{above, below};

    const LEADING: [(&str, bool); 2] = [("never", false), ("leading-note", true)];
    const OTHER: [(&str, bool); 2] = [("never", false), ("leading-note", false)];

    #[test]
    fn a_leading_note_rises_from_its_suspension() {
        for passage in [
            above(4, "C ionian", "G4 B4 | - C5", "E4 | C4"),
            above(4, "A aeolian", "D4 G#4 | - A4", "B3 | A3"),
            below(4, "C ionian", "D5 | C5", "G3 B3 | - C4"),
        ] {
            passage.is_answered("modal", "rising", &LEADING);
            passage.in_meter("4/2").is_answered("modal", "rising", &LEADING);
            passage.without_a_cantus().is_answered("modal", "rising", &LEADING);
        }
        above(4, "C ionian", "G4 A4 B4 | - C5 E5", "E4 | C4")
            .in_meter("3/2")
            .is_answered("modal", "rising", &LEADING);
    }

    #[test]
    fn any_other_note_goes_down() {
        above(4, "A aeolian", "E4 G4 | - A4", "B3 | A3").is_answered("modal", "rising", &OTHER);
        above(4, "C ionian", "A4 C5 | - D5", "F4 | D4").is_answered("modal", "rising", &OTHER);
        above(4, "C ionian", "G4 B4 | - D5", "E4 | C4").is_answered("modal", "rising", &OTHER);
    }
}

mod changing_notes {
    use super::{Passage, above, below};

    const QUESTION: &str = "changing-notes";
    const ANSWERS: [&str; 4] = ["never", "falling", "both-ways", "skipping"];

    #[track_caller]
    fn holds(passage: Passage, passes: [bool; 4]) {
        let expected: Vec<_> = ANSWERS.into_iter().zip(passes).collect();
        passage.is_answered("modal", QUESTION, &expected);
    }

    const FALLING: [bool; 4] = [false, true, true, true];
    const RISING: [bool; 4] = [false, false, true, true];
    const ABANDONED: [bool; 4] = [false, false, false, true];

    #[test]
    fn a_cambiata_falls() {
        for passage in [
            above(3, "C ionian", "C5 B4 G4 A4 | B4", "C4 | G4"),
            below(3, "C ionian", "C5 | B4", "A3 G3 E3 F3 | G3"),
        ] {
            holds(passage, FALLING);
            holds(passage.in_meter("4/2"), FALLING);
            holds(passage.without_a_cantus(), FALLING);
        }
        let triple = above(3, "C ionian", "E4 G4 C5 B4 G4 A4 | B4", "C4 | G4");
        holds(triple.in_meter("3/2"), FALLING);
    }

    #[test]
    fn it_may_rise() {
        for passage in [
            above(3, "C ionian", "E4 F4 A4 G4 | F4", "C4 | D4"),
            below(3, "A aeolian", "C5 | A4", "C3 D3 F3 E3 | D3"),
        ] {
            holds(passage, RISING);
            holds(passage.in_meter("4/2"), RISING);
            holds(passage.without_a_cantus(), RISING);
        }
        let triple = above(3, "C ionian", "G4 C4 E4 F4 A4 G4 | F4", "C4 | D4");
        holds(triple.in_meter("3/2"), RISING);
    }

    #[test]
    fn a_skipped_third_comes_back_at_once_and_goes_where_it_likes() {
        let abandoned = above(3, "C ionian", "C5 B4 G4 A4 | F4", "C4 | D4");
        holds(abandoned, ABANDONED);
        holds(abandoned.in_meter("4/2"), ABANDONED);
        let not_back = above(3, "C ionian", "C5 B4 G4 E4 | F4", "C4 | D4");
        holds(not_back, [false; 4]);
    }
}

mod double_neighbour {
    use super::{above, below};

    const TURNS: [(&str, bool); 2] = [("no", false), ("yes", true)];
    const ELSEWHERE: [(&str, bool); 2] = [("no", false), ("yes", false)];

    #[test]
    fn both_neighbours_turn_around_a_note() {
        for passage in [
            above(3, "C ionian", "E4 F4 D4 E4 | G4", "C4 | C4"),
            above(3, "A aeolian", "C5 D5 B4 C5 | E5", "A3 | A3"),
            below(3, "G mixolydian", "B3 | B3", "G3 F3 A3 G3 | G3"),
        ] {
            passage.is_answered("modal", "double-neighbour", &TURNS);
            passage.in_meter("4/2").is_answered("modal", "double-neighbour", &TURNS);
            passage.without_a_cantus().is_answered("modal", "double-neighbour", &TURNS);
        }
        above(3, "C ionian", "C5 G4 E4 F4 D4 E4 | G4", "C4 | C4").in_meter("3/2").is_answered(
            "modal",
            "double-neighbour",
            &TURNS,
        );
    }

    #[test]
    fn they_come_back_to_it() {
        above(3, "C ionian", "E4 F4 D4 C4 | E4", "C4 | C4").is_answered(
            "modal",
            "double-neighbour",
            &ELSEWHERE,
        );
    }
}

mod decorated {
    use super::{above, below};

    const DECORATED: [(&str, bool); 2] = [("no", false), ("yes", true)];
    const LATE: [(&str, bool); 2] = [("no", false), ("yes", false)];

    #[test]
    fn something_stands_between_a_suspension_and_its_resolution() {
        for passage in [
            above(5, "C ionian", "A4 C5 | - A4 B4 D5", "F4 | D4"),
            above(5, "G mixolydian", "E4 G4 | - E4 F#4 A4", "C4 | A3"),
            below(5, "C ionian", "C5 | B4", "C4 A3 | - E3 G3 E3"),
        ] {
            passage.is_answered("modal", "decorated", &DECORATED);
            passage.in_meter("4/2").is_answered("modal", "decorated", &DECORATED);
            passage.without_a_cantus().is_answered("modal", "decorated", &DECORATED);
        }
        above(5, "C ionian", "A4 B4 C5 | (- A4) B4 D5", "F4 | D4").in_meter("3/2").is_answered(
            "modal",
            "decorated",
            &DECORATED,
        );
    }

    #[test]
    fn what_stands_between_does_not_take_its_place() {
        above(5, "C ionian", "A4 C5 | - A4 G4 F4", "F4 | D4").is_answered(
            "modal",
            "decorated",
            &LATE,
        );
        above(5, "C ionian", "A4 B4 C5 | - A4 B4", "F4 | D4").in_meter("3/2").is_answered(
            "modal",
            "decorated",
            &LATE,
        );
    }

    #[test]
    fn something_stands_between_where_the_harmony_changes_inside_the_bar() {
        above(5, "C major", "E5 D5 C5 | - (- G4) (B4 D5) | C5", "C4 | F3 G3 G3 | C3")
            .in_meter("3/2")
            .without_a_cantus()
            .is_answered("tonal", "decorated", &DECORATED);
    }
}

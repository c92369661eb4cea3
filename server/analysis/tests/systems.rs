//! Which row of a system an exercise takes for which bars, above all that of the harmony. Knows the
//! score, no rules.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use bicinium_analysis::{Sheet, Shelf};

const VOICES: [&str; 2] = ["  soprano cantus | C5 | A4 |\n", "  tenor counter | C4 | F3 |\n"];

/// The bars (counted from 1) in which the harmonies of an exercise enter.
fn harmonies(rows: &str) -> Vec<String> {
    let text = format!("key C major\n\nexercise\n  species 1\n{rows}");
    let snapshot = Sheet::new(&text, Arc::new(Shelf::default())).snapshot();
    let exercise =
        snapshot.blocks().iter().find_map(|block| block.judged.exercise.clone()).unwrap();
    let setting = &exercise.score.setting;
    let written = exercise.score.harmonies.iter();
    written.map(|one| format!("{} {}", setting.bar_of(one.onset) + 1, one.numeral)).collect()
}

const ROW: &str = "  harmony | I | IV |\n";

#[test]
fn a_harmony_row_may_stand_anywhere_in_its_system() {
    let [upper, lower] = VOICES;
    for rows in [
        format!("{ROW}{upper}{lower}"),
        format!("{upper}{ROW}{lower}"),
        format!("{upper}{lower}{ROW}"),
        format!("{ROW}\n{upper}\n{lower}"),
        format!("{upper}\n{ROW}{lower}"),
    ] {
        assert_eq!(harmonies(&rows), ["1 I", "2 IV"], "{rows}");
    }
}

#[test]
fn above_the_second_system_it_belongs_to_that_one() {
    let [upper, lower] = VOICES;
    let second = format!("{upper}{lower}\n{ROW}{upper}{lower}");
    assert_eq!(harmonies(&second), ["3 I", "4 IV"]);
    let third = format!("{second}\n{ROW}{upper}{lower}");
    assert_eq!(harmonies(&third), ["3 I", "4 IV", "5 I", "6 IV"]);
    let voices_of_one_name = second.replace("tenor", "soprano");
    assert_eq!(harmonies(&voices_of_one_name), ["3 I", "4 IV"]);
}

#[test]
fn below_the_first_system_it_belongs_to_that_one() {
    let [upper, lower] = VOICES;
    let close = format!("{upper}{lower}{ROW}\n{upper}{lower}");
    assert_eq!(harmonies(&close), ["1 I", "2 IV"]);
    let behind_a_comment = format!("{upper}{lower}  // heard so\n{ROW}{upper}{lower}");
    assert_eq!(harmonies(&behind_a_comment), ["1 I", "2 IV"]);
}

#[test]
fn behind_the_last_system_it_is_not_lost() {
    let [upper, lower] = VOICES;
    let below = format!("{upper}{lower}\n{ROW}");
    assert_eq!(harmonies(&below), ["1 I", "2 IV"]);
    let below_the_second = format!("{upper}{lower}\n{upper}{lower}\n{ROW}");
    assert_eq!(harmonies(&below_the_second), ["3 I", "4 IV"]);
}

/// The harmonies of one bar of 4/4, each with the quarter in which it enters and how many it lasts.
fn in_quarters(row: &str) -> Vec<String> {
    let text = format!(
        "key C major\nmeter 4/4\n\nexercise\n  soprano counter | C5 |\n  tenor cantus | C4 |\n  {row}\n"
    );
    let snapshot = Sheet::new(&text, Arc::new(Shelf::default())).snapshot();
    let (_, _, exercise) = snapshot.exercises().next().unwrap();
    let quarter = exercise.score.setting.bar_length().ticks() / 4;
    let entered = |time: bicinium_theory::Duration| time.ticks() / quarter;
    let written = exercise.score.harmonies.iter();
    written
        .map(|one| format!("{} {}+{}", one.numeral, entered(one.onset), entered(one.duration)))
        .collect()
}

#[test]
fn harmonies_share_a_bar_as_notes_do() {
    assert_eq!(in_quarters("harmony | I V |"), ["I 0+2", "V 2+2"]);
    assert_eq!(in_quarters("harmony | I - - V |"), ["I 0+3", "V 3+1"]);
    assert_eq!(in_quarters("harmony | I (IV V) |"), ["I 0+2", "IV 2+1", "V 3+1"]);
    assert_eq!(in_quarters("harmony | (I V) - |"), ["I 0+1", "V 1+3"]);
}

//! Figures and harmonies at the ends of bars: worked examples.

#![allow(clippy::unwrap_used)]

use std::collections::BTreeSet;
use std::sync::Arc;

use bicinium::features::hints::{Hint, HintKind, hints};
use bicinium_analysis::sheet::Placed;
use bicinium_analysis::{Sheet, Shelf};

const ALL: [HintKind; 3] = [HintKind::Intervals, HintKind::Harmonies, HintKind::Suspensions];

/// The hints of a sheet, each with the byte before which it stands.
fn found(text: &str, kinds: &[HintKind]) -> Vec<(usize, Hint)> {
    let snapshot = Sheet::new(text, Arc::new(Shelf::default())).snapshot();
    let kinds: BTreeSet<_> = kinds.iter().copied().collect();
    let of_block = |placed: &Placed| {
        let hints = hints(&placed.judged, &kinds).into_iter();
        hints.map(|it| (placed.start + usize::from(it.at), it)).collect::<Vec<_>>()
    };
    snapshot.blocks().iter().flat_map(of_block).collect()
}

/// The rows of a sheet as they look with the hints in them.
fn rows(text: &str, kinds: &[HintKind]) -> Vec<String> {
    let mut shown = text.to_owned();
    let mut hints = found(text, kinds);
    hints.sort_by_key(|hint| std::cmp::Reverse(hint.0));
    for (at, hint) in hints {
        shown.insert_str(at, &hint.text);
    }
    let rows = shown.lines().filter(|line| line.contains('|'));
    rows.map(|row| row.trim().to_owned()).collect()
}

const SPECIES_2: &str = "\
key C major

exercise
  species 2
  soprano cantus  | C5      | D5    | C5 |
  bass    counter | rest C4 | B3 G3 | C4 |
";

#[test]
fn figures_stand_in_the_upper_row_and_keep_the_barlines_under_each_other() {
    let shown = rows(SPECIES_2, &[HintKind::Intervals]);
    assert_eq!(
        shown,
        [
            "soprano cantus  | C5      8 | D5    10 5 | C5 8 |",
            "bass    counter | rest C4   | B3 G3      | C4   |",
        ]
    );
}

#[test]
fn harmonies_stand_in_the_lower_row() {
    let shown = rows(SPECIES_2, &ALL);
    assert_eq!(
        shown,
        [
            "soprano cantus  | C5      8 | D5    10 5 | C5 8 |",
            "bass    counter | rest C4 I | B3 G3 V6   | C4 I |",
        ]
    );
}

#[test]
fn what_the_harmony_row_says_is_not_repeated() {
    let sheet = format!("{SPECIES_2}  harmony         | I       | ?     | I  |\n");
    let shown = rows(&sheet, &[HintKind::Harmonies]);
    assert_eq!(shown[1], "bass    counter | rest C4 | B3 G3 V6 | C4 |");
    assert_eq!(shown[2], "harmony         | I       | ?        | I  |");
}

const SPECIES_4: &str = "\
key C major

exercise
  species 4
  soprano counter | rest C5 | - B4 | C5 |
  tenor   cantus  | C4      | D4   | C4 |
";

#[test]
fn a_suspension_is_one_figure() {
    let upper = |kinds: &[HintKind]| rows(SPECIES_4, kinds).first().cloned().unwrap();
    assert!(upper(&[HintKind::Intervals, HintKind::Suspensions]).contains("| - B4 7–6 |"));
    assert!(upper(&[HintKind::Suspensions]).contains("| - B4 7–6 |"));
    assert!(upper(&[HintKind::Intervals]).contains("| - B4 7 6 |"));
}

#[test]
fn an_altered_interval_tells_its_quality() {
    let sheet = "exercise\n  soprano | F5 B4 |\n  bass | B3 F4 |\n";
    assert!(rows(sheet, &[HintKind::Intervals])[0].ends_with("d5 A4 |"));
}

#[test]
fn hints_are_said_in_words_too() {
    let hints = found(SPECIES_4, &ALL);
    let said: Vec<_> = hints.iter().filter_map(|(_, hint)| hint.said.as_deref()).collect();
    assert!(said.contains(&"a 7–6 suspension"), "{said:?}");
    assert!(said.iter().any(|said| said.starts_with("I (C E G)")), "{said:?}");
}

#[test]
fn nothing_is_hinted_where_nothing_is_asked_or_written() {
    assert_eq!(found(SPECIES_2, &[]), []);
    assert_eq!(found("exercise\n  soprano | ? |\n  bass | |\n", &[HintKind::Intervals]), []);
}

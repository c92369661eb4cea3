//! The harmonies of complete lines, bar by bar, against those that were written down by hand.

use std::collections::BTreeMap;

use bicinium_analysis::Exercise;
use bicinium_analysis::reading::Stretch;

use super::sheets::examples;
use super::tables::rows;

/// Sheet, figure and bar.
type Place = (String, String, u32);

fn place(row: &[String]) -> Place {
    (row[0].clone(), row[1].clone(), row[2].parse().unwrap())
}

/// The fourth cell of each row of a table, by place.
fn by_place(table: &str) -> BTreeMap<Place, String> {
    rows(table).iter().map(|row| (place(row), row[3].clone())).collect()
}

/// The stretches that begin in a bar, counted from 1.
fn in_bar(exercise: &Exercise, bar: u32) -> impl Iterator<Item = &Stretch> {
    let bar_of = |stretch: &Stretch| exercise.score.setting.bar_of(stretch.onset) + 1;
    exercise.verdict.reading.stretches.iter().filter(move |stretch| bar_of(stretch) == bar)
}

/// The complete lines, read in a tonal school; of the passages, those that are complete.
fn lines() -> BTreeMap<(String, String), Exercise> {
    let mut lines = BTreeMap::new();
    for sheet in ["lehmann-1907", "lehmann-1907-passages", "grove-1883"] {
        for example in read_as_tonal(sheet) {
            let title = example.title.clone().unwrap();
            let words: Vec<_> = title.split(' ').collect();
            let figure = if sheet.ends_with("passages") { words[0] } else { words[1] };
            lines.insert((sheet.to_owned(), figure.to_owned()), example);
        }
    }
    lines
}

fn read_as_tonal(sheet: &str) -> Vec<Exercise> {
    examples(sheet, "tonal").into_iter().map(|example| example.exercise).collect()
}

/// The harmonies read in every bar that the table names.
fn readings() -> BTreeMap<Place, String> {
    let lines = lines();
    let read = |(sheet, figure, bar): Place| {
        let exercise = &lines[&(sheet.clone(), figure.clone())];
        let names: Vec<_> = in_bar(exercise, bar).map(|s| s.numeral.to_string()).collect();
        ((sheet, figure, bar), names.join(" "))
    };
    by_place("harmonies.tsv").into_keys().map(read).collect()
}

#[test]
fn every_bar_of_the_lines_has_its_harmony_in_the_table() {
    let table = by_place("harmonies.tsv");
    for ((sheet, figure), exercise) in lines() {
        let bars = table.keys().filter(|known| (&known.0, &known.1) == (&sheet, &figure)).count();
        let is_complete = !sheet.ends_with("passages") || figure.starts_with('7') && bars > 0;
        let all = usize::try_from(exercise.score.setting.bars).unwrap();
        assert!(bars == all || (!is_complete && bars == 0), "{sheet}, {figure}");
    }
}

#[test]
fn the_harmonies_are_those_of_the_table_but_for_the_differences_that_are_listed() {
    let readings = readings();
    let mut expected = by_place("harmonies.tsv");
    for (place, read) in by_place("harmonies-differences.tsv") {
        let by_hand = expected.insert(place.clone(), read.clone());
        assert_ne!(by_hand, Some(read), "{place:?} is no difference");
    }
    let differs = |(place, read): (&Place, &String)| {
        let by_hand = &expected[place];
        (by_hand != read).then(|| format!("{place:?}: {by_hand} by hand, read as {read}"))
    };
    let differences: Vec<_> = readings.iter().filter_map(differs).collect();
    assert!(differences.is_empty(), "{}", differences.join("\n"));
}

#[test]
fn where_two_harmonies_are_as_good_the_other_one_is_kept() {
    let lines = lines();
    let exercise = &lines[&("grove-1883".to_owned(), "2".to_owned())];
    let others = in_bar(exercise, 2).flat_map(|stretch| stretch.alternatives.iter());
    assert!(others.map(|other| other.numeral.to_string()).any(|numeral| numeral == "vii°6"));
}

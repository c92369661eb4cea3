//! The harmony that a bar stands for, as a numeral: `V6`; `–` where the one before goes on. Where the
//! writer has said it in the harmony row, nothing.

use bicinium_analysis::Exercise;
use bicinium_analysis::reading::Stretch;
use bicinium_theory::Duration;

use super::Gloss;
use crate::features::hover::harmony;

/// What goes on from the bar before.
const GOES_ON: &str = "–";

/// The harmonies of a bar, counted from 0.
pub(super) fn in_bar(exercise: &Exercise, bar: u32) -> Gloss {
    let stretches = &exercise.verdict.reading.stretches;
    let setting = &exercise.score.setting;
    let first = stretches.partition_point(|it| it.onset < setting.bar_start(bar));
    let inside = stretches.iter().enumerate().skip(first);
    let inside = inside.take_while(|(_, it)| setting.bar_of(it.onset) == bar);
    let open: Vec<_> = inside.filter(|(_, it)| !is_written(exercise, it.onset)).collect();
    let before = |index: usize| index.checked_sub(1).and_then(|index| stretches.get(index));
    let numerals = open.iter().map(|(index, it)| numeral(it, before(*index)));
    let said: Vec<_> = open.iter().filter_map(|(_, it)| harmony::at(exercise, it.onset)).collect();
    let text = numerals.collect::<Vec<_>>().join(" ");
    Gloss { text, said: (!said.is_empty()).then(|| said.join(", then ")) }
}

fn numeral(stretch: &Stretch, before: Option<&Stretch>) -> String {
    let is_same = before.is_some_and(|before| before.numeral == stretch.numeral);
    match stretch.prolonged_from {
        Some(_) if is_same => GOES_ON.to_owned(),
        _ => stretch.numeral.to_string(),
    }
}

fn is_written(exercise: &Exercise, onset: Duration) -> bool {
    let written = &exercise.score.harmonies;
    let begun = written.partition_point(|it| it.onset <= onset);
    written[..begun].last().is_some_and(|it| onset < it.onset + it.duration)
}

//! Bars of a line that come again at once: what is told of any line is what trying every length at every
//! bar finds.

#![allow(clippy::unwrap_used)]

use std::sync::Arc;

use bicinium_analysis::score::VoiceId;
use bicinium_analysis::{Sheet, Shelf};
use proptest::prelude::*;

/// What may stand in a bar; a blank one is not written yet.
const BARS: [&str; 5] = ["E4", "F4", "E4 F4", "F4 - E4 F4", ""];

fn sheet(bars: &[&str]) -> String {
    let under = vec!["C3"; bars.len()].join(" | ");
    format!(
        "exercise\n  rulebook tonal\n  key C major\n  soprano | {} |\n  bass | {under} |\n",
        bars.join(" | ")
    )
}

/// The bars, counted from 1, that are told to repeat those before them, first and last.
fn told(bars: &[&str]) -> Vec<(usize, usize)> {
    let sheet = Sheet::new(&sheet(bars), Arc::new(Shelf::default()));
    let snapshot = sheet.snapshot();
    let found = snapshot.findings().map(|located| located.finding);
    let told = found.filter(|it| it.rule == "monotony" && it.voice == Some(VoiceId::Upper));
    told.map(|finding| {
        let words = finding.message.split_whitespace();
        let numbers: Vec<usize> = words.filter_map(|word| word.parse().ok()).collect();
        (numbers[0], numbers[1])
    })
    .collect()
}

/// The same by trying every length at every bar.
fn tried(bars: &[&str]) -> Vec<(usize, usize)> {
    let (mut found, mut at) = (Vec::new(), 0);
    while at < bars.len() {
        let comes_again = |length: &usize| {
            let (figure, again) = (&bars[at..at + length], &bars[at + length..at + 2 * length]);
            let is_written = figure.iter().all(|bar| !bar.is_empty());
            let pitches: Vec<_> =
                figure.iter().flat_map(|bar| bar.split(' ')).filter(|it| *it != "-").collect();
            is_written && figure == again && pitches.iter().any(|pitch| *pitch != pitches[0])
        };
        let length = (2..=(bars.len() - at) / 2).find(comes_again);
        found.extend(length.map(|length| (at + length + 1, at + 2 * length)));
        at += length.unwrap_or(1);
    }
    found
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn what_comes_again_at_once_is_what_every_length_tried_finds(
        bars in prop::collection::vec(prop::sample::select(&BARS[..]), 1..24),
    ) {
        prop_assert_eq!(told(&bars), tried(&bars), "{:?}", bars);
    }
}

#[test]
fn a_figure_of_many_bars_is_found_however_long_it_is() {
    let figure = ["C4", "D4", "E4", "F4", "G4", "A4", "B4", "C5", "D5", "E5", "F5", "G5"];
    let bars = [&figure[..], &["A4"], &figure, &figure].concat();
    assert_eq!(told(&bars), [(26, 37)]);
}

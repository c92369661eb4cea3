//! The intervals of a bar as figures, one after the other: `8 3`, `7–6`, `d5`.

use std::collections::BTreeSet;

use bicinium_analysis::Exercise;
use bicinium_analysis::reading::{Function, SuspensionKind};
use bicinium_analysis::rules::wording;
use bicinium_analysis::score::{Event, Score, VoiceId};
use bicinium_theory::{Duration, Interval};

use super::{Gloss, HintKind};

/// The highest figure that is written as it is; what is wider is written as within the octave. Common
/// practice.
const HIGHEST: u16 = 10;

/// The figures of a bar, counted from 0, given all suspensions in order.
pub(super) fn in_bar(
    score: &Score,
    bar: u32,
    suspensions: &[Held],
    kinds: &BTreeSet<HintKind>,
) -> Gloss {
    let is_wanted = |kind| kinds.contains(&kind);
    let (start, end) = (score.setting.bar_start(bar), score.setting.bar_start(bar + 1));
    let first = suspensions.partition_point(|held| held.at < start);
    let inside = suspensions[first..].iter().take_while(|held| held.at < end);
    let suspensions: Vec<_> = inside.filter(|_| is_wanted(HintKind::Suspensions)).collect();
    let intervals = is_wanted(HintKind::Intervals).then(|| intervals(score, bar));
    let intervals = intervals.unwrap_or_default();
    let is_free = |onset: Duration| !suspensions.iter().any(|it| it.covers(onset));
    let alone = intervals.into_iter().filter(|(onset, _)| is_free(*onset));
    let alone = alone.map(|(onset, it)| (onset, figure(it), wording::an_interval(it)));
    let held = suspensions.iter().map(|it| (it.at, it.kind.to_string(), it.words()));
    let mut figures: Vec<_> = alone.chain(held).collect();
    figures.sort_by_key(|(onset, ..)| *onset);
    let text = figures.iter().map(|(_, figure, _)| figure.as_str()).collect::<Vec<_>>().join(" ");
    let said = figures.into_iter().map(|(.., words)| words).collect::<Vec<_>>().join(", then ");
    Gloss { text, said: (!said.is_empty()).then_some(said) }
}

/// A suspension, from its dissonance to its resolution.
pub(super) struct Held {
    at: Duration,
    until: Duration,
    kind: SuspensionKind,
}

impl Held {
    fn covers(&self, onset: Duration) -> bool {
        self.at <= onset && onset <= self.until
    }

    fn words(&self) -> String {
        format!("a {} suspension", self.kind)
    }
}

/// All suspensions of an exercise, in the order of their dissonances.
pub(super) fn suspensions(exercise: &Exercise) -> Vec<Held> {
    let all = VoiceId::BOTH.iter().flat_map(|voice| &exercise.verdict.reading.functions[*voice]);
    let held = all.filter_map(|known| match known.function {
        Function::Embellishes { link, resolution, kind: Some(kind), .. } => {
            Some(Held { at: link.at, until: resolution.onset, kind })
        }
        _ => None,
    });
    let mut held: Vec<_> = held.collect();
    held.sort_by_key(|held| held.at);
    held
}

/// The intervals of a bar with the moments at which they are first heard.
fn intervals(score: &Score, bar: u32) -> Vec<(Duration, Interval)> {
    let (start, end) = (score.setting.bar_start(bar), score.setting.bar_start(bar + 1));
    let onsets = VoiceId::BOTH.into_iter().flat_map(|voice| {
        let events = &score.lines[voice].events;
        let first = events.partition_point(|event| event.onset < start);
        let inside = events[first..].iter().take_while(move |event| event.onset < end);
        inside.map(|event| event.onset)
    });
    let onsets: BTreeSet<_> = onsets.collect();
    onsets.into_iter().filter_map(|onset| Some((onset, interval(score, onset)?))).collect()
}

fn interval(score: &Score, onset: Duration) -> Option<Interval> {
    let pitch = |voice: VoiceId| score.lines[voice].sounding_at(onset).and_then(Event::pitch);
    let (upper, lower) = (pitch(VoiceId::Upper)?, pitch(VoiceId::Lower)?);
    Some(Interval::between(upper.min(lower), upper.max(lower)))
}

/// A number; with its quality where that is neither perfect nor major nor minor.
fn figure(interval: Interval) -> String {
    let interval = if interval.number() > HIGHEST { interval.simple() } else { interval };
    if interval.is_diminished() || interval.is_augmented() {
        interval.to_string()
    } else {
        interval.number().to_string()
    }
}

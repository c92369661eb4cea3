//! The voices exchanged at the octave: what was above is below. Intervals are inverted by it, so it is
//! said what becomes of the fifths and fourths. Where harmonies are written it is not offered, for
//! their figures would say something else.

use std::collections::BTreeSet;

use bicinium_analysis::score::{Event, Pair, Score, Sound, VoiceId};
use bicinium_grammar::TextRange;
use bicinium_grammar::ast::{Bar, VoiceRow};
use bicinium_theory::{Interval, Pitch};

use super::rows::{self, VoiceRows};
use super::{Draft, Edits, Place, Subject};
use crate::features::words::list;

const OCTAVE: Interval = Interval::new(7, 12);
const FIFTH: Interval = Interval::new(4, 7);
const FOURTH: Interval = Interval::new(3, 5);
/// How many octaves the lower voice goes up, and the upper one down; the first that is best wins.
const WAYS: [(i16, i16); 5] = [(1, 0), (0, 1), (1, 1), (2, 0), (0, 2)];
/// How many bars are named one by one.
const NAMED: usize = 6;

/// The exchange, with the octaves in which the judge finds the fewest faults.
pub(super) fn at_the_octave(place: &Place<'_>, rows: &VoiceRows) -> Option<Draft> {
    let score = &place.exercise.score;
    let systems = systems(rows)?;
    if !place.is_clean() || !score.harmonies.is_empty() {
        return None;
    }
    let exchanged = WAYS.iter().filter_map(|way| Some((*way, exchanged(score, *way)?)));
    let best = exchanged
        .min_by_key(|(_, score)| (crossings(score), place.account_of(score.clone()).tally()));
    let ((up, down), _) = best?;
    let text = place.text();
    let mut edits = Edits::new();
    for (upper, lower) in systems {
        let [new_upper, new_lower] =
            [half(&text, upper, lower, up), half(&text, lower, upper, -down)];
        edits.extend(new_upper?);
        edits.extend(new_lower?);
    }
    let octaves = if up + down > 1 { "two octaves" } else { "the octave" };
    let title = format!("Exchange the voices at {octaves}: {}", consequences(score));
    (!edits.is_empty()).then_some(Draft { title, subject: Subject::Exchange, edits })
}

/// The rows that stand under each other; none if they do not match bar by bar.
fn systems(rows: &VoiceRows) -> Option<Vec<(&VoiceRow, &VoiceRow)>> {
    let (upper, lower) = (&rows.of.upper, &rows.of.lower);
    let pairs: Vec<_> = upper.iter().zip(lower).collect();
    let match_up = pairs.iter().all(|(upper, lower)| upper.bars().len() == lower.bars().len());
    (upper.len() == lower.len() && match_up).then_some(pairs)
}

/// A row with what stands in the other one, moved by octaves.
fn half(text: &str, row: &VoiceRow, other: &VoiceRow, octaves: i16) -> Option<Edits> {
    let bars = row.bars().into_iter().zip(other.bars());
    let mut edits = bars
        .map(|(bar, other)| Some((bar.written_range(), moved(text, &other, octaves)?)))
        .collect::<Option<Edits>>()?;
    edits.extend(role(text, row, other));
    Some(edits)
}

/// The text of a bar with its notes moved by octaves and all else kept.
fn moved(text: &str, bar: &Bar, octaves: i16) -> Option<String> {
    let whole = bar.written_range();
    let mut moved = text[whole].to_owned();
    for (range, pitch) in rows::notes(bar).into_iter().rev() {
        let written = &text[range];
        let name = written.trim_end_matches(|sign: char| sign.is_ascii_digit() || sign == '-');
        let octave = by_octaves(pitch, octaves)?.octave();
        let place = range - whole.start();
        let place = usize::from(place.start())..usize::from(place.end());
        moved.replace_range(place, &format!("{name}{octave}"));
    }
    Some(moved)
}

/// The word for what the row is for, with the name of the cantus, as in the other row.
fn role(text: &str, row: &VoiceRow, other: &VoiceRow) -> Option<(TextRange, String)> {
    let said = |row: &VoiceRow| {
        let role = row.role_range()?;
        Some(row.cantus_name_range().map_or(role, |name| role.cover(name)))
    };
    let meant = said(other).map(|range| text[range].to_owned());
    match (said(row), meant) {
        (Some(own), Some(meant)) => Some((own, meant)),
        (Some(own), None) => Some((own, String::new())),
        (None, Some(meant)) => {
            let end = row.register_range()?.end();
            Some((TextRange::empty(end), format!(" {meant}")))
        }
        (None, None) => None,
    }
}

fn by_octaves(pitch: Pitch, octaves: i16) -> Option<Pitch> {
    pitch.transpose(Interval::new(OCTAVE.steps() * octaves, OCTAVE.semitones() * octaves))
}

fn exchanged(score: &Score, (up, down): (i16, i16)) -> Option<Score> {
    let mut new = score.clone();
    new.lines.upper.events = events(&score.lines.lower.events, up)?;
    new.lines.lower.events = events(&score.lines.upper.events, -down)?;
    new.setting.cantus = score.setting.cantus.map(VoiceId::other);
    let bars = score.setting.bars_of;
    new.setting.bars_of = Pair { upper: bars.lower, lower: bars.upper };
    Some(new)
}

fn events(events: &[Event], octaves: i16) -> Option<Vec<Event>> {
    let moved = |event: &Event| match event.sound {
        Sound::Note(pitch) => {
            Some(Event { sound: Sound::Note(by_octaves(pitch, octaves)?), ..event.clone() })
        }
        _ => Some(event.clone()),
    };
    events.iter().map(moved).collect()
}

/// At how many moments the upper voice is below the lower one.
fn crossings(score: &Score) -> usize {
    intervals(score).iter().filter(|(_, interval)| interval.semitones() < 0).count()
}

/// Every interval from the lower to the upper voice, with its bar counted from 1.
fn intervals(score: &Score) -> Vec<(u32, Interval)> {
    let lines = &score.lines;
    let events = lines.upper.events.iter().chain(&lines.lower.events);
    let onsets: BTreeSet<_> = events.map(|event| event.onset).collect();
    let interval = |onset| {
        let lower = lines.lower.sounding_at(onset)?.pitch()?;
        let upper = lines.upper.sounding_at(onset)?.pitch()?;
        Some((score.setting.bar_of(onset) + 1, Interval::between(lower, upper)))
    };
    onsets.into_iter().filter_map(interval).collect()
}

/// What becomes of the fifths and fourths, in words.
fn consequences(score: &Score) -> String {
    let bars_of = |meant: Interval| -> Vec<u32> {
        let all = intervals(score).into_iter();
        let bars = all.filter(|(_, interval)| interval.abs().simple() == meant);
        bars.map(|(bar, _)| bar).collect::<BTreeSet<_>>().into_iter().collect()
    };
    let become_ = |of: Interval, one: &str, many: &str, new: &str| match bars_of(of).as_slice() {
        [] => None,
        [bar] => Some(format!("the {one} in bar {bar} becomes a {new}")),
        bars => Some(format!("the {many} in {} become {new}s", named(bars))),
    };
    let fifths = become_(FIFTH, "fifth", "fifths", "fourth");
    let fourths = become_(FOURTH, "fourth", "fourths", "fifth");
    let said: Vec<_> = fifths.into_iter().chain(fourths).collect();
    if said.is_empty() { "there is no fifth or fourth in it".to_owned() } else { said.join(", ") }
}

fn named(bars: &[u32]) -> String {
    if bars.len() > NAMED {
        return format!("{} bars", bars.len());
    }
    format!("bars {}", list(&bars.iter().map(ToString::to_string).collect::<Vec<_>>()))
}

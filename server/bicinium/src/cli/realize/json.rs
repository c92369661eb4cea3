//! What can still be written, for other programs. The names of the fields are a promise to them. It
//! must not know how it was found.

use bicinium_analysis::Exercise;
use bicinium_analysis::judge::Heard;
use bicinium_analysis::score::VoiceId;
use bicinium_realizer::{Extent, Found, Opening, Realization};
use bicinium_theory::Duration;
use serde::Serialize;
use serde_json::{Value, json};

use super::answer::{Answer, Task};
use super::write;
use crate::cli::desk::Desk;
use crate::cli::marked::Marked;

/// The answer about the one exercise that was asked about.
pub(super) fn tell(
    sheet: &Marked,
    answers: &[Answer<'_>],
    desk: &Desk,
) -> serde_json::Result<String> {
    let values: Vec<_> = answers.iter().map(|answer| value(sheet, answer, desk)).collect();
    serde_json::to_string_pretty(values.first().unwrap_or(&Value::Null))
}

fn value(sheet: &Marked, answer: &Answer<'_>, desk: &Desk) -> Value {
    if let Some(count) = &answer.count {
        let exact = count.extent == Extent::All;
        return json!({ "count": count.number.to_string(), "exact": exact });
    }
    if let Some(ways) = &answer.ways {
        return ways
            .found
            .iter()
            .map(|way| json!(Way::new(sheet, &answer.task, way, desk)))
            .collect();
    }
    let openings = answer.openings.as_ref();
    openings.map_or(Value::Null, |openings| json!(places(answer.task.exercise, openings)))
}

/// A way to fill an exercise.
#[derive(Serialize)]
struct Way {
    upper: Vec<Vec<Note>>,
    lower: Vec<Vec<Note>>,
    cost: u32,
    harmonies: Vec<Harmony>,
}

/// A note or a rest, as far as it sounds in a bar.
#[derive(Serialize)]
struct Note {
    /// Nothing for a rest.
    pitch: Option<String>,
    /// As part of a whole note, such as `1/2`.
    duration: String,
    /// Whether it goes on from the bar before.
    tied: bool,
}

/// A harmony, as it is heard best.
#[derive(Serialize)]
struct Harmony {
    /// Counted from 1.
    bar: u32,
    /// From the beginning of the bar, as part of a whole note.
    after: String,
    numeral: String,
}

/// What an open place may become.
#[derive(Serialize)]
struct Place {
    voice: &'static str,
    /// Counted from 1.
    bar: u32,
    /// From the beginning of the bar, as part of a whole note.
    after: String,
    pitches: Vec<Choice>,
}

#[derive(Serialize)]
struct Choice {
    pitch: String,
    duration: String,
    cost: u32,
}

impl Way {
    fn new(sheet: &Marked, task: &Task<'_>, way: &Realization, desk: &Desk) -> Self {
        let [upper, lower] = VoiceId::BOTH.map(|voice| bars(task.exercise, way, voice));
        Self { upper, lower, cost: way.resistance, harmonies: harmonies(sheet, task, way, desk) }
    }
}

fn bars(exercise: &Exercise, way: &Realization, voice: VoiceId) -> Vec<Vec<Note>> {
    let setting = &exercise.score.setting;
    let notes: Vec<Heard> = way.notes(voice).collect();
    let is_there = !exercise.score.lines[voice].head.is_empty();
    let bar = |bar: u32| {
        let start = setting.bar_start(bar);
        bar_notes(&notes, start, start + setting.bar_length())
    };
    (0..setting.bars).filter(|_| is_there).map(bar).collect()
}

fn bar_notes(notes: &[Heard], start: Duration, end: Duration) -> Vec<Note> {
    let mut now = start;
    let mut bar = Vec::new();
    for note in notes.iter().filter(|note| note.onset < end && note.end() > start) {
        if note.onset > now {
            let duration = fraction(note.onset - now);
            bar.push(Note { pitch: None, duration, tied: false });
        }
        let from = note.onset.max(start);
        now = note.end().min(end);
        let pitch = Some(note.pitch.to_string());
        bar.push(Note { pitch, duration: fraction(now - from), tied: note.onset < start });
    }
    if now < end {
        bar.push(Note { pitch: None, duration: fraction(end - now), tied: false });
    }
    bar
}

/// The harmonies of the sheet with the way written into it, as the judge hears them.
fn harmonies(sheet: &Marked, task: &Task<'_>, way: &Realization, desk: &Desk) -> Vec<Harmony> {
    let written = write::rewritten(sheet, &[(*task, way)], &mut desk.afresh());
    let exercises = written.snapshot().exercises().map(|known| known.2);
    let Some(exercise) = exercises.into_iter().nth(task.number - 1) else { return Vec::new() };
    let setting = &exercise.score.setting;
    let stretches = exercise.verdict.reading.stretches.iter();
    stretches
        .map(|stretch| Harmony {
            bar: setting.bar_of(stretch.onset) + 1,
            after: fraction(setting.within_bar(stretch.onset)),
            numeral: stretch.numeral.to_string(),
        })
        .collect()
}

fn places(exercise: &Exercise, openings: &Found<Opening>) -> Vec<Place> {
    let setting = &exercise.score.setting;
    let place = |opening: &Opening| Place {
        voice: opening.voice.name(),
        bar: setting.bar_of(opening.onset) + 1,
        after: fraction(setting.within_bar(opening.onset)),
        pitches: opening
            .viable
            .iter()
            .map(|viable| Choice {
                pitch: viable.pitch.to_string(),
                duration: fraction(viable.duration),
                cost: viable.way.resistance,
            })
            .collect(),
    };
    openings.found.iter().map(place).collect()
}

/// A length as part of a whole note: `0`, `1`, `3/4`.
fn fraction(length: Duration) -> String {
    let (ticks, whole) = (length.ticks(), Duration::WHOLE.ticks());
    let common = common_divisor(ticks, whole).max(1);
    match (ticks / common, whole / common) {
        (number, 1) => number.to_string(),
        (number, part) => format!("{number}/{part}"),
    }
}

fn common_divisor(a: u32, b: u32) -> u32 {
    if b == 0 { a } else { common_divisor(b, a % b) }
}

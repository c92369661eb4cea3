//! The best ways to fill all that is open in an exercise, as changes of the text.

use std::ops::Range;
use std::sync::atomic::AtomicBool;

use bicinium_analysis::score::{Event, Sound, VoiceId};
use bicinium_analysis::sheet::Placed;
use bicinium_analysis::{Exercise, Snapshot};
use bicinium_realizer::{Count, Extent, Realization, Realizer, Watch, completed};

use super::bar_text::bar_text;
use super::missing::append;
use crate::features::words::grouped;

/// A way to fill all that is open in an exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Filling {
    /// What it does, as a line in a menu.
    pub title: String,
    /// The changes of the text: ranges in bytes of the sheet, and what stands there instead.
    pub edits: Vec<(Range<usize>, String)>,
}

/// The best ways to fill the exercise at a byte of a sheet.
pub fn fillings(snapshot: &Snapshot, offset: usize) -> Vec<Filling> {
    let Some(block) = snapshot.block_at(offset) else { return Vec::new() };
    let Some(exercise) = &block.judged.exercise else { return Vec::new() };
    let cancelled = AtomicBool::new(false);
    let watch = Watch::new(super::PROMPT, &cancelled);
    let realizer = Realizer::new(exercise, &watch);
    if !realizer.is_open() {
        return Vec::new();
    }
    let (best, count) = (realizer.best(3), realizer.count());
    let ways = best.found.iter().zip(["the best", "the second best", "the third best"]);
    ways.map(|(way, rank)| Filling {
        title: title(exercise, &count, rank),
        edits: edits(block, exercise, way),
    })
    .collect()
}

fn title(exercise: &Exercise, count: &Count, rank: &str) -> String {
    let events = VoiceId::BOTH.iter().flat_map(|voice| &exercise.score.lines[*voice].events);
    let events: Vec<_> = events.collect();
    let has = |sound: Sound| events.iter().filter(|event| event.sound == sound).count();
    let what = match (has(Sound::Hole), has(Sound::Blank)) {
        (1, 0) => "Fill the hole".to_owned(),
        (holes, 0) => format!("Fill the {holes} holes"),
        (_, _) => "Fill what is open".to_owned(),
    };
    match (grouped(&count.number).as_str(), count.extent) {
        ("1", Extent::All) => format!("{what}: the only way"),
        (number, Extent::All) => format!("{what}: {rank} of {number} ways"),
        (number, Extent::AtLeast) => format!("{what}: {rank} of more than {number} ways"),
    }
}

/// The changes that write a way into the text: pitches into holes, notes into blank bars, and bars
/// at the end of rows that are too short.
pub fn edits(
    block: &Placed,
    exercise: &Exercise,
    way: &Realization,
) -> Vec<(Range<usize>, String)> {
    let mut edits = Vec::new();
    let score = completed(&exercise.score);
    for voice in VoiceId::BOTH {
        let line = &score.lines[voice];
        for event in &line.events {
            let Some(text) = text(exercise, way, voice, event) else { continue };
            if event.range == line.head {
                append(&mut edits, block, line, event.onset, &text);
            } else {
                edits.push((block.in_sheet(event.range), text));
            }
        }
    }
    edits.sort_by_key(|edit| edit.0.start);
    edits
}

fn text(exercise: &Exercise, way: &Realization, voice: VoiceId, event: &Event) -> Option<String> {
    match event.sound {
        Sound::Hole => way.note(voice, event.onset).map(|note| note.pitch.to_string()),
        Sound::Blank => {
            let notes: Vec<_> = way.notes(voice).collect();
            let length = exercise.score.setting.bar_length();
            bar_text(&notes, event.onset, length).map(|bar| format!(" {bar} "))
        }
        Sound::Note(_) | Sound::Rest => None,
    }
}

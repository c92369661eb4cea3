//! Ways to fill what is open in an exercise, as changes of the text: this hole, this bar, from here to
//! the end, or all of it.

use std::collections::BTreeSet;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::ops::Range;
use std::sync::atomic::AtomicBool;

use bicinium_analysis::score::{Event, Sound, VoiceId};
use bicinium_analysis::sheet::Placed;
use bicinium_analysis::{Exercise, Snapshot};
use bicinium_realizer::{Count, Extent, Realization, Realizer, Terms, Watch, completed};

use super::bar_text::bar_of;
use super::missing::append;
use super::places::{Open, open_at};
use super::prospect::{Prospect, prospect};
use crate::features::words::grouped;

/// A way to write something in an exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Filling {
    /// What it does, as a line in a menu.
    pub title: String,
    /// The changes of the text: ranges in bytes of the sheet, and what stands there instead.
    pub edits: Vec<(Range<usize>, String)>,
}

/// The ways to fill what is open at a byte of a sheet, and more from there on: the least first.
pub fn fillings(snapshot: &Snapshot, offset: usize, cancelled: &AtomicBool) -> Vec<Filling> {
    let Some(block) = snapshot.block_at(offset) else { return Vec::new() };
    let Some(exercise) = &block.judged.exercise else { return Vec::new() };
    let Some(open) = open_at(block, exercise, offset) else { return Vec::new() };
    let Some(prospect) = prospect(&block.judged, cancelled) else { return Vec::new() };
    let place = Place { block, exercise };
    let best = prospect.best.found.first();
    let parts = best.into_iter().flat_map(|best| place.parts(&open, best));
    let whole = place.whole(&prospect);
    let drawn = place.drawn(&prospect, cancelled);
    let mut known = BTreeSet::new();
    let all = parts.chain(whole).chain(drawn).filter(|filling| !filling.edits.is_empty());
    all.filter(|filling| known.insert(filling.edits.iter().map(key).collect::<Vec<_>>())).collect()
}

fn key((range, text): &(Range<usize>, String)) -> (usize, String) {
    (range.start, text.clone())
}

/// An exercise in its sheet.
struct Place<'a> {
    block: &'a Placed,
    exercise: &'a Exercise,
}

impl Place<'_> {
    /// What is open here, in this bar, and from this bar to the end, as in the best way.
    fn parts(&self, open: &Open, best: &Realization) -> [Filling; 3] {
        let setting = &self.exercise.score.setting;
        let here = setting.bar_of(open.onset);
        let is_here =
            |voice: VoiceId, event: &Event| (voice, event.onset) == (open.voice, open.onset);
        let bar = |event: &Event| setting.bar_of(event.onset);
        let what = match open.sound {
            Sound::Blank => format!("bar {} of this row", here + 1),
            _ => "this hole".to_owned(),
        };
        let parts = [
            (what, self.edits(best, is_here)),
            (format!("bar {}", here + 1), self.edits(best, |_, event| bar(event) == here)),
            (
                format!("from bar {} to the end", here + 1),
                self.edits(best, |_, event| bar(event) >= here),
            ),
        ];
        parts.map(|(what, edits)| {
            let written: Vec<_> = edits.iter().map(|edit| edit.1.trim()).collect();
            let text = if written.len() > 4 {
                "as in the best way".to_owned()
            } else {
                written.join(" | ")
            };
            Filling { title: format!("Fill {what}: {text}"), edits }
        })
    }

    /// Everything, as in each of the best ways.
    fn whole(&self, prospect: &Prospect) -> Vec<Filling> {
        let ways =
            prospect.best.found.iter().zip(["the best", "the second best", "the third best"]);
        let filling = |(way, rank)| Filling {
            title: title(&prospect.count, rank),
            edits: self.edits(way, |_, _| true),
        };
        ways.map(filling).collect()
    }

    /// Everything in a way that is drawn; the same one as long as the exercise is the same.
    fn drawn(&self, prospect: &Prospect, cancelled: &AtomicBool) -> Option<Filling> {
        if prospect.count.extent == Extent::AtLeast {
            return None;
        }
        let watch = Watch::new(super::PROMPT, cancelled);
        let realizer = Realizer::on(Terms::as_it_stands(self.exercise), self.exercise, &watch);
        let way = realizer.sample(1, self.seed()).found.pop()?;
        let title = title(&prospect.count, "one drawn by lot");
        Some(Filling { title, edits: self.edits(&way, |_, _| true) })
    }

    fn seed(&self) -> u64 {
        let mut hasher = DefaultHasher::new();
        self.block.judged.tree.text().hash(&mut hasher);
        hasher.finish()
    }

    fn edits(
        &self,
        way: &Realization,
        is_meant: impl Fn(VoiceId, &Event) -> bool,
    ) -> Vec<(Range<usize>, String)> {
        edits_of(self.block, self.exercise, way, is_meant)
    }
}

/// "Fill all: the best of 1,204 ways".
fn title(count: &Count, rank: &str) -> String {
    match (grouped(&count.number).as_str(), count.extent) {
        ("1", Extent::All) => "Fill all: the only way".to_owned(),
        (number, Extent::All) => format!("Fill all: {rank} of {number} ways"),
        ("0" | "1", Extent::AtLeast) => format!("Fill all: {rank} that was found"),
        (number, Extent::AtLeast) => format!("Fill all: {rank} of more than {number} ways"),
    }
}

/// The changes that write a way into the text: pitches into holes, notes into blank bars, and bars
/// at the end of rows that are too short.
pub fn edits(
    block: &Placed,
    exercise: &Exercise,
    way: &Realization,
) -> Vec<(Range<usize>, String)> {
    edits_of(block, exercise, way, |_, _| true)
}

/// The same for some of what is open.
fn edits_of(
    block: &Placed,
    exercise: &Exercise,
    way: &Realization,
    is_meant: impl Fn(VoiceId, &Event) -> bool,
) -> Vec<(Range<usize>, String)> {
    let mut edits = Vec::new();
    let score = completed(&exercise.score);
    for voice in VoiceId::BOTH {
        let line = &score.lines[voice];
        for event in line.events.iter().filter(|event| is_meant(voice, event)) {
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
            let length = exercise.score.setting.bar_length();
            bar_of(way, voice, event.onset, length).map(|bar| format!(" {bar} "))
        }
        Sound::Note(_) | Sound::Rest | Sound::Held => None,
    }
}

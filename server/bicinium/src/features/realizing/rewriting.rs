//! A bar that is written, written another way: its notes are opened again, and the next of the ways to
//! fill it is taken, the best after the last, so that asking again and again shows them all.

use std::sync::atomic::AtomicBool;

use bicinium_analysis::Snapshot;
use bicinium_analysis::score::{Event, VoiceId};
use bicinium_analysis::sheet::Placed;
use bicinium_grammar::TextSize;
use bicinium_realizer::{Extent, Realization, Realizer, Terms, Watch};
use bicinium_theory::Pitch;

use super::fillings::Filling;

/// How many ways are gone through.
const WAYS: usize = 24;

/// The bar at a byte of a sheet written another way; nothing where the voice is given, or where there
/// is no other way.
pub fn rewriting(snapshot: &Snapshot, offset: usize, cancelled: &AtomicBool) -> Option<Filling> {
    let block = snapshot.block_at(offset)?;
    let exercise = block.judged.exercise.as_ref()?;
    let setting = &exercise.score.setting;
    let (voice, event) = written_at(block, offset)?;
    let bar = setting.bar_of(event.onset);
    let events = exercise.score.lines[voice].events.iter();
    let notes: Vec<_> = events
        .filter(|event| setting.bar_of(event.onset) == bar && event.pitch().is_some())
        .collect();
    let terms = Terms::as_it_stands(exercise);
    let terms = terms.reopening(notes.iter().map(|note| (voice, note.onset))).strictly().only();
    let watch = Watch::new(super::PROMPT, cancelled);
    let ways = Realizer::on(terms, exercise, &watch).best(WAYS);
    let pitches = |way: &Realization| -> Option<Vec<Pitch>> {
        notes.iter().map(|note| Some(way.note(voice, note.onset)?.pitch)).collect()
    };
    let all: Vec<_> = ways.found.iter().filter_map(pitches).collect();
    let present: Vec<_> = notes.iter().filter_map(|note| note.pitch()).collect();
    let index = all.iter().position(|way| *way == present).map_or(0, |at| (at + 1) % all.len());
    let next = all.get(index).filter(|way| **way != present)?;
    let changed = notes.iter().zip(next).filter(|(note, pitch)| note.pitch() != Some(**pitch));
    let edits = changed.map(|(note, pitch)| (block.in_sheet(note.range), pitch.to_string()));
    let written: Vec<_> = next.iter().map(ToString::to_string).collect();
    let more = if ways.extent == Extent::AtLeast || all.len() == WAYS { " or more" } else { "" };
    let title = format!(
        "Write bar {} another way: {} (number {} of {}{more})",
        bar + 1,
        written.join(" "),
        index + 1,
        all.len(),
    );
    Some(Filling { title, edits: edits.collect() })
}

/// The note at a byte of a sheet, in a voice that is to be written.
fn written_at(block: &Placed, offset: usize) -> Option<(VoiceId, &Event)> {
    let exercise = block.judged.exercise.as_ref()?;
    let within = TextSize::try_from(offset.checked_sub(block.start)?).ok()?;
    exercise.score.setting.written().find_map(|voice| {
        let mut events = exercise.score.lines[voice].events.iter();
        let is_here =
            |event: &&Event| event.pitch().is_some() && event.range.contains_inclusive(within);
        Some((voice, events.find(is_here)?))
    })
}

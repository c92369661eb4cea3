//! A note by the name that it has in its surroundings: Db that goes to D is C#. Offered only if the
//! judge finds less to say about it; where the note alone does not do, its right neighbour, and then
//! its left one, is renamed with it.

use std::ops::Range;

use bicinium_analysis::score::{Event, VoiceId};
use bicinium_analysis::sheet::Change;
use bicinium_theory::{Accidental, Pitch};

use super::{Draft, Place, Subject, is_at};

/// The better name of the note at a range of the sheet.
pub(super) fn at(place: &Place<'_>, range: &Range<usize>) -> Option<Draft> {
    let lines = &place.exercise.score.lines;
    let found = VoiceId::BOTH.into_iter().find_map(|voice| {
        let mut events = lines[voice].events.iter().enumerate();
        let (index, _) = events
            .find(|(_, event)| event.pitch().is_some() && is_at(place.block, event.range, range))?;
        Some((voice, index))
    });
    let (voice, index) = found?;
    let events = &lines[voice].events;
    let changes = best(place, voice, events, index)?;
    draft(place, events, &changes)
}

/// The first renaming about which the judge finds less to say.
fn best(place: &Place<'_>, voice: VoiceId, events: &[Event], index: usize) -> Option<Vec<Change>> {
    let own = renamed(voice, events.get(index)?);
    let single = own.iter().map(|change| vec![*change]).collect();
    let with = |neighbour: Option<&Event>| -> Vec<Vec<Change>> {
        let others = neighbour.map_or_else(Vec::new, |event| renamed(voice, event));
        own.iter().flat_map(|a| others.iter().map(move |b| vec![*a, *b])).collect()
    };
    let left = index.checked_sub(1).and_then(|before| events.get(before));
    let tries: [Vec<Vec<Change>>; 3] = [single, with(events.get(index + 1)), with(left)];
    tries.into_iter().find_map(|tries| {
        let before = place.exercise.account();
        let better = tries.into_iter().filter_map(|changes| {
            let after = place.exercise.account_with(&changes);
            let is_better = after.tally() < before.tally() && after.brings_no_fault_to(&before);
            is_better.then(|| (after.tally(), changes))
        });
        better.min_by_key(|(tally, _)| *tally).map(|(_, changes)| changes)
    })
}

/// The other names of a note, with at most one accidental.
fn renamed(voice: VoiceId, event: &Event) -> Vec<Change> {
    let Some(old) = event.pitch() else { return Vec::new() };
    let accidentals = [Accidental::FLAT, Accidental::NATURAL, Accidental::SHARP];
    let steps = [old.step() - 1, old.step() + 1];
    let all = steps.into_iter().flat_map(|step| {
        accidentals.into_iter().filter_map(move |sign| Pitch::from_step(step, sign))
    });
    let same = all.filter(|new| new.midi() == old.midi());
    same.map(|pitch| Change { voice, onset: event.onset, pitch }).collect()
}

fn draft(place: &Place<'_>, events: &[Event], changes: &[Change]) -> Option<Draft> {
    let mut said = Vec::new();
    let mut edits = Vec::new();
    for change in changes {
        let event = events.iter().find(|event| event.onset == change.onset)?;
        said.push(format!("{} as {}", event.pitch()?, change.pitch));
        edits.push((event.range, change.pitch.to_string()));
    }
    let bar = place.exercise.score.setting.bar_of(changes.first()?.onset) + 1;
    let title = format!("Write {} in bar {bar}, the same key by its name here", said.join(" and "));
    Some(Draft { title, subject: Subject::Spelling, edits })
}

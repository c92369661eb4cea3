//! Which notes a finding is about: those it stands under, those it names, and their neighbours. Knows
//! places, not what may stand there.

use bicinium_analysis::judge::Spot;
use bicinium_analysis::score::{Event, Score, VoiceId};
use bicinium_analysis::sheet::Placed;
use bicinium_analysis::{Exercise, Finding};
use bicinium_theory::Duration;

/// A note that may be changed.
pub(super) type Note = (VoiceId, Duration);

/// The notes that a finding is about, then their neighbours; only those that may be changed.
pub(super) fn concerned(
    block: &Placed,
    exercise: &Exercise,
    finding: &Finding,
    spot: Spot,
) -> Vec<Note> {
    let score = &exercise.score;
    let mut notes = written(score, |event| is_under(block, event, finding));
    notes.extend(written(score, |event| event.onset == spot.onset));
    let around: Vec<_> = notes.iter().flat_map(|note| neighbours(score, *note)).collect();
    notes.extend(around);
    let mut once = Vec::new();
    for note in notes {
        if !once.contains(&note) {
            once.push(note);
        }
    }
    once
}

/// So many notes in a row, all of them among those given.
pub(super) fn rows(score: &Score, notes: &[Note], count: usize) -> Vec<Vec<Note>> {
    let row = |first: &Note| {
        let mut row = vec![*first];
        while row.len() < count {
            let next = follower(score, *row.last()?).filter(|next| notes.contains(next))?;
            row.push(next);
        }
        Some(row)
    };
    notes.iter().filter_map(row).collect()
}

/// The notes right before and after a note.
pub(super) fn neighbours(score: &Score, (voice, onset): Note) -> Vec<Note> {
    let events = &score.lines[voice].events;
    let Some(index) = events.iter().position(|event| event.onset == onset) else {
        return Vec::new();
    };
    let around = [index.checked_sub(1), Some(index + 1)].into_iter().flatten();
    let events = around.filter_map(|index| events.get(index));
    events.filter(|event| event.pitch().is_some()).map(|event| (voice, event.onset)).collect()
}

fn follower(score: &Score, (voice, onset): Note) -> Option<Note> {
    let next = score.lines[voice].events.iter().find(|event| event.onset > onset);
    next.filter(|event| event.pitch().is_some()).map(|event| (voice, event.onset))
}

fn written(score: &Score, is_meant: impl Fn(&Event) -> bool) -> Vec<Note> {
    let of_voice = |voice: VoiceId| {
        let events = score.lines[voice].events.iter();
        let meant = events.filter(|event| event.pitch().is_some() && is_meant(event));
        meant.map(move |event| (voice, event.onset)).collect::<Vec<_>>()
    };
    score.setting.written().flat_map(of_voice).collect()
}

fn is_under(block: &Placed, event: &Event, finding: &Finding) -> bool {
    let related = finding.related.iter().any(|related| related.range == event.range);
    block.in_sheet(event.range) == block.in_sheet(finding.range) || related
}

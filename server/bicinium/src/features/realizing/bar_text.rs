//! A bar of notes as it is written: equal shares, a group in parentheses where a share is divided,
//! `-` where a note goes on. Knows lengths, no exercise.

use bicinium_analysis::judge::Heard;
use bicinium_analysis::score::VoiceId;
use bicinium_realizer::Realization;
use bicinium_theory::Duration;

/// How many shares are written out before a share is rather divided.
const ENOUGH: u32 = 4;

/// The text of a bar as a way to fill an exercise has it; nothing if it stays open there, or cannot be written
/// in shares.
pub fn bar_of(
    way: &Realization,
    voice: VoiceId,
    start: Duration,
    length: Duration,
) -> Option<String> {
    if way.leaves_open(voice, &(start..start + length)) {
        return None;
    }
    bar_text(&way.notes(voice).collect::<Vec<_>>(), start, length)
}

/// The text of a bar between its barlines, from the notes of a voice; a bar in which nothing sounds is a
/// rest. Nothing if it cannot be written in shares.
pub fn bar_text(notes: &[Heard], start: Duration, length: Duration) -> Option<String> {
    let end = start + length;
    let inside: Vec<_> =
        notes.iter().filter(|note| note.onset < end && note.end() > start).collect();
    let turns = inside.iter().flat_map(|note| [note.onset, note.end()]);
    let turns: Vec<_> = turns.filter(|turn| *turn > start && *turn < end).collect();
    let fits = |share: Duration| {
        let fits = |turn: &Duration| (*turn - start).ticks().is_multiple_of(share.ticks().max(1));
        turns.iter().all(fits)
    };
    let count = (1..=length.ticks()).find(|count| length.divide(*count).is_some_and(fits))?;
    let write = |count| {
        let share = length.divide(count)?;
        let tokens = (0..count).map(|index| token(&inside, start + share * index, share));
        Some(tokens.collect::<Option<Vec<_>>>()?.join(" "))
    };
    counts_for(count).find_map(write)
}

/// Into how many shares a bar is divided that takes `count` equal ones, the best first: few, some of which
/// are then divided; but all the same if they are enough.
fn counts_for(count: u32) -> impl Iterator<Item = u32> {
    let few = (2..=ENOUGH).rev().filter(move |_| count > ENOUGH);
    let many = ENOUGH + 1..count;
    few.chain(many).filter(move |coarse| count.is_multiple_of(*coarse)).chain([count])
}

/// What is written for one share: a note, a hold, a rest, or a group of halves.
fn token(notes: &[&Heard], start: Duration, share: Duration) -> Option<String> {
    let end = start + share;
    let is_divided = notes
        .iter()
        .flat_map(|note| [note.onset, note.end()])
        .any(|turn| turn > start && turn < end);
    if is_divided {
        let half = share.divide(2).filter(|half| *half > Duration::ZERO)?;
        let halves = [token(notes, start, half)?, token(notes, start + half, half)?];
        return Some(format!("({})", halves.join(" ")));
    }
    let sounding = notes.iter().find(|note| note.onset <= start && start < note.end());
    Some(match sounding {
        Some(note) if note.onset == start => note.pitch.to_string(),
        Some(_) => "-".to_owned(),
        None => "rest".to_owned(),
    })
}

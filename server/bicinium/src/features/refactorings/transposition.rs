//! Everything in another key or another octave. Offered are the octaves and the neighbouring keys; of
//! an exercise only those in which the judge finds no fault that was not there before.

use bicinium_analysis::score::settings::Settings;
use bicinium_analysis::score::{Score, Sound, VoiceId};
use bicinium_analysis::sheet::Placed;
use bicinium_grammar::ast::{CantusBlock, Setting, SettingValue};
use bicinium_grammar::{TextRange, TextSize};
use bicinium_theory::{Interval, Key, Pitch};

use super::rows::{self, VoiceRows};
use super::{Draft, Edits, Place, Subject};
use crate::features::lines::{end_of_line, line_end};

const OCTAVES: [Interval; 2] = [Interval::new(7, 12), Interval::new(-7, -12)];
/// The ways to the neighbouring keys, each with its way round the octave; the nearer one first.
const NEIGHBOURS: [[Interval; 2]; 4] = [
    [Interval::new(-3, -5), Interval::new(4, 7)],
    [Interval::new(3, 5), Interval::new(-4, -7)],
    [Interval::new(1, 2), Interval::new(-6, -10)],
    [Interval::new(-1, -2), Interval::new(6, 10)],
];
/// Intervals by their steps.
const NAMES: [&str; 7] =
    ["a step", "a third", "a fourth", "a fifth", "a sixth", "a seventh", "an octave"];

/// The transpositions of an exercise.
pub(super) fn of_exercise(place: &Place<'_>, rows: &VoiceRows) -> Vec<Draft> {
    let is_only_named = place.exercise.score.setting.cantus.is_some_and(|cantus| {
        place.exercise.score.setting.definition.is_some() && rows.notes(cantus).is_empty()
    });
    if !place.is_clean() || is_only_named {
        return Vec::new();
    }
    let notes: Vec<_> = VoiceId::BOTH.into_iter().flat_map(|voice| rows.notes(voice)).collect();
    let key = place.exercise.score.setting.key;
    let (settings, head) = (place.written.settings(), place.written.head_range());
    let text = place.text();
    let drafts = ways(key).into_iter().filter_map(|way| {
        let by = way.choices.iter().copied().find(|by| bears(place, *by, way.key))?;
        let new = Some(way.key).filter(|new| *new != key);
        let key_edit = new.map(|new| key_edit(&text, &settings, head, new));
        draft(title(new, by), by, &notes, key_edit)
    });
    drafts.collect()
}

/// The transpositions of a cantus that is defined.
pub(super) fn of_cantus(block: &Placed, cantus: &CantusBlock) -> Vec<Draft> {
    if !block.judged.tree.problems.is_empty() {
        return Vec::new();
    }
    let bars = cantus.rows().into_iter().flat_map(|row| row.bars());
    let notes: Vec<_> = bars.flat_map(|bar| rows::notes(&bar)).collect();
    let settings = cantus.settings();
    let own = settings.iter().rev().find_map(key_of);
    let key = own.unwrap_or(Settings::default().key);
    let text = block.judged.tree.text();
    // Where the cantus does not say its key, only the octaves are sure to keep it.
    let ways = ways(key).into_iter().filter(|way| own.is_some() || way.key == key);
    let drafts = ways.filter_map(|way| {
        let new = Some(way.key).filter(|new| *new != key);
        let key_edit = new.map(|new| key_edit(&text, &settings, cantus.head_range(), new));
        let by = *way.choices.first()?;
        draft(title(new, by), by, &notes, key_edit)
    });
    drafts.collect()
}

/// Where it goes, with the intervals that lead there, the nearest first.
struct Way {
    key: Key,
    choices: Vec<Interval>,
}

fn ways(key: Key) -> Vec<Way> {
    let octaves = OCTAVES.into_iter().map(|by| Way { key, choices: vec![by] });
    let neighbours = NEIGHBOURS.into_iter().filter_map(|choices| {
        let key = Key::new(key.tonic.transpose(choices[0])?, key.mode)?;
        Some(Way { key, choices: choices.to_vec() })
    });
    octaves.chain(neighbours).collect()
}

/// "Transpose to G major, a fourth down".
fn title(key: Option<Key>, by: Interval) -> String {
    let name = NAMES.get(usize::from(by.number()).saturating_sub(2)).copied().unwrap_or_default();
    let direction = if by.steps() < 0 { "down" } else { "up" };
    match key {
        Some(key) => format!("Transpose to {key}, {name} {direction}"),
        None => format!("Transpose {name} {direction}"),
    }
}

/// Whether the judge finds no fault in the transposed music that is not in the music as it stands.
fn bears(place: &Place<'_>, by: Interval, key: Key) -> bool {
    let transposed = transposed(&place.exercise.score, by, key);
    let account = transposed.map(|score| place.account_of(score));
    account.is_some_and(|account| account.brings_no_fault_to(&place.exercise.account()))
}

fn transposed(score: &Score, by: Interval, key: Key) -> Option<Score> {
    let mut score = score.clone();
    score.setting.key = key;
    for voice in VoiceId::BOTH {
        for event in &mut score.lines[voice].events {
            if let Sound::Note(pitch) = event.sound {
                event.sound = Sound::Note(pitch.transpose(by)?);
            }
        }
    }
    Some(score)
}

fn draft(
    title: String,
    by: Interval,
    notes: &[(TextRange, Pitch)],
    key_edit: Option<(TextRange, String)>,
) -> Option<Draft> {
    let moved = notes.iter().map(|(range, old)| Some((*range, old.transpose(by)?.to_string())));
    let mut edits = moved.collect::<Option<Edits>>().filter(|edits| !edits.is_empty())?;
    edits.extend(key_edit);
    Some(Draft { title, subject: Subject::Transposition, edits })
}

/// The key where it is written, or a line that says it where it is not.
fn key_edit(text: &str, settings: &[Setting], head: TextRange, key: Key) -> (TextRange, String) {
    let written = settings.iter().rfind(|setting| key_of(setting).is_some());
    if let Some(setting) = written {
        return (setting.value_range, key.to_string());
    }
    let end = end_of_line(text, usize::from(head.end()));
    let at = TextSize::try_from(end).unwrap_or(head.end());
    (TextRange::empty(at), format!("{}  key {key}", line_end(text)))
}

fn key_of(setting: &Setting) -> Option<Key> {
    let is_key = matches!(setting.value, SettingValue::Key { .. });
    is_key.then(|| Settings::default().with(vec![setting.clone()], &mut Vec::new()).key)
}

//! A cantus that is only named, written out: every bar of it that is still blank gets the note of the
//! definition, in the transposition that is written already or the octave in which the judge finds the
//! fewest faults.

use bicinium_analysis::score::{Definition, Score, Sound, VoiceId};
use bicinium_grammar::TextRange;
use bicinium_grammar::ast::VoiceRow;
use bicinium_theory::Interval;

use super::rows::VoiceRows;
use super::{Draft, Edits, Place, Subject};

/// The octaves that are tried, the nearest first.
const OCTAVES: [Interval; 5] = [
    Interval::new(0, 0),
    Interval::new(-7, -12),
    Interval::new(7, 12),
    Interval::new(-14, -24),
    Interval::new(14, 24),
];

/// The cantus written out, if it is defined and something of it is not written yet.
pub(super) fn written_out(place: &Place<'_>, rows: &VoiceRows) -> Option<Draft> {
    let score = &place.exercise.score;
    let voice = score.setting.cantus?;
    let definition = score.setting.definition.as_ref()?;
    let by = transposition(place, voice, definition);
    let edits = edits(&place.text(), &rows.of[voice], definition, by)?;
    let title = format!("Write in the cantus {}", definition.name);
    (!edits.is_empty()).then_some(Draft { title, subject: Subject::Cantus, edits })
}

/// The way from the definition to the cantus of an exercise.
pub(super) fn transposition(
    place: &Place<'_>,
    voice: VoiceId,
    definition: &Definition,
) -> Interval {
    let score = &place.exercise.score;
    let written = score.lines[voice].events.iter();
    let written = written.filter_map(|it| Some((score.setting.bar_of(it.onset), it.pitch()?)));
    definition.transposition(written).unwrap_or_else(|| {
        let tally =
            |by: &Interval| place.account_of(with_cantus(score, voice, definition, *by)).tally();
        OCTAVES.into_iter().min_by_key(tally).unwrap_or(OCTAVES[0])
    })
}

fn with_cantus(score: &Score, voice: VoiceId, definition: &Definition, by: Interval) -> Score {
    let mut score = score.clone();
    let setting = score.setting.clone();
    // Whether a voice can sing it is asked only of voices that are not given.
    score.setting.cantus = None;
    for event in &mut score.lines[voice].events {
        if let Some(note) = definition.note_in(setting.bar_of(event.onset), by) {
            event.sound = Sound::Note(note);
        }
    }
    score
}

fn edits(text: &str, rows: &[VoiceRow], definition: &Definition, by: Interval) -> Option<Edits> {
    let mut notes = definition.notes.iter().map(|note| note.transpose(by));
    let mut edits = Edits::new();
    for row in rows {
        for bar in row.bars() {
            let note = notes.next();
            if let (true, Some(note)) = (bar.is_blank(), note) {
                edits.push((TextRange::empty(bar.range().start()), format!(" {}", note?)));
            }
        }
    }
    let rest = notes.collect::<Option<Vec<_>>>()?;
    if let (Some(last), false) = (rows.last(), rest.is_empty()) {
        let bars = rest.iter().map(ToString::to_string).collect::<Vec<_>>().join(" | ");
        let end = last.range().end();
        let is_closed = text[..usize::from(end)].ends_with('|');
        let open = if is_closed { "" } else { " |" };
        edits.push((TextRange::empty(end), format!("{open} {bars} |")));
    }
    Some(edits)
}

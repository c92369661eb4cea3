//! What belongs to the place at which a reader stands: to a note what sounds with it, the stretch of the
//! same harmony, and where a finding about it has its other half; to a name where else it stands.

use std::ops::Range;

use bicinium_analysis::score::{Event, VoiceId};
use bicinium_analysis::sheet::Placed;
use bicinium_analysis::{Exercise, Finding, Snapshot};
use bicinium_grammar::{TextRange, TextSize};
use bicinium_theory::Duration;

use super::names::{self, Name};
use super::pointed::{Pointed, event_at, is_on};

/// A place that belongs to another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Highlight {
    /// Where, in bytes of the sheet.
    pub range: Range<usize>,
    /// How it belongs to it.
    pub tie: Tie,
}

/// How a place belongs to the one pointed at; the closest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Tie {
    /// It is the very place, or the definition of a name.
    Itself,
    /// It sounds at the same time, is the other half of a finding, or bears the same name.
    Partner,
    /// It stands in the same stretch of harmony.
    Harmony,
}

/// What belongs to a byte of a sheet, in the order of the text; each place once, by its closest tie.
pub fn highlights(snapshot: &Snapshot, offset: usize) -> Vec<Highlight> {
    let Some(block) = snapshot.block_at(offset) else { return Vec::new() };
    let Ok(within) = TextSize::try_from(offset.saturating_sub(block.start)) else {
        return Vec::new();
    };
    let music = block.judged.exercise.as_ref().map(|it| of_music(block, it, within));
    let mut found = music.unwrap_or_default();
    if found.is_empty() {
        found = of_name(snapshot, block, within);
    }
    found.sort_by_key(|it| (it.range.start, it.range.end, it.tie));
    found.dedup_by(|later, first| later.range == first.range);
    found
}

fn of_music(block: &Placed, exercise: &Exercise, at: TextSize) -> Vec<Highlight> {
    let place = |tie| move |range| Highlight { range: block.in_sheet(range), tie };
    if let Some(pointed) = event_at(&block.judged, exercise, at) {
        if pointed.event.pitch().is_none() {
            return Vec::new();
        }
        let itself = [pointed.range, pointed.event.range].into_iter().map(place(Tie::Itself));
        let partners = together(exercise, &pointed).chain(others(&block.judged.findings, &pointed));
        let same = stretch(exercise, pointed.event.onset).into_iter().map(place(Tie::Harmony));
        return itself.chain(partners.map(place(Tie::Partner))).chain(same).collect();
    }
    let written = exercise.score.harmonies.iter().find(|it| is_on(it.range, at));
    let Some(written) = written else { return Vec::new() };
    let same = stretch(exercise, written.onset).into_iter().map(place(Tie::Harmony));
    [written.range].into_iter().map(place(Tie::Itself)).chain(same).collect()
}

/// The notes of the other voice that sound at the same time.
fn together<'e>(
    exercise: &'e Exercise,
    pointed: &Pointed<'e>,
) -> impl Iterator<Item = TextRange> + 'e {
    let event = pointed.event;
    notes_between(exercise, pointed.voice.other(), event.onset, event.end())
}

/// The other places of what was found at a note.
fn others<'f>(
    findings: &'f [Finding],
    pointed: &Pointed<'_>,
) -> impl Iterator<Item = TextRange> + use<'f> {
    let here = pointed.event.range;
    findings.iter().flat_map(move |found| {
        let related = found.related.iter().map(|related| related.range);
        let places: Vec<_> = [found.range].into_iter().chain(related).collect();
        let is_about = places.contains(&here);
        places.into_iter().filter(move |_| is_about)
    })
}

/// The notes in the stretch of harmony at an instant.
fn stretch(exercise: &Exercise, instant: Duration) -> Vec<TextRange> {
    let Some(stretch) = exercise.verdict.reading.stretch_at(instant) else { return Vec::new() };
    let stretches = &exercise.verdict.reading.stretches;
    let start = stretch.prolonged_from.unwrap_or(stretch.onset);
    let after = stretches.iter().skip_while(|it| it.onset <= stretch.onset);
    let last = after.take_while(|it| it.prolonged_from == Some(start)).last();
    let end = last.map_or(stretch.end, |last| last.end);
    let both = VoiceId::BOTH.into_iter();
    both.flat_map(|voice| notes_between(exercise, voice, start, end)).collect()
}

/// The notes of a voice that sound in a stretch of time.
fn notes_between(
    exercise: &Exercise,
    voice: VoiceId,
    start: Duration,
    end: Duration,
) -> impl Iterator<Item = TextRange> + '_ {
    let events = &exercise.score.lines[voice].events;
    let first = events.partition_point(|event| event.end() <= start);
    let sounding = events[first..].iter().take_while(move |event| event.onset < end);
    sounding.filter(|event: &&Event| event.pitch().is_some()).map(|event| event.range)
}

/// Where else the name of a cantus stands in the sheet.
fn of_name(snapshot: &Snapshot, block: &Placed, at: TextSize) -> Vec<Highlight> {
    let Some(Name::Cantus(name, _)) = names::at(&block.judged.tree, at) else { return Vec::new() };
    let of_block = |block: &Placed| {
        let definition = names::definition(&block.judged.tree, &name);
        let definition = definition.into_iter().map(|range| (range, Tie::Itself));
        let mentions = names::mentions(&block.judged.tree, &name).into_iter();
        let all = definition.chain(mentions.map(|range| (range, Tie::Partner)));
        all.map(|(range, tie)| Highlight { range: block.in_sheet(range), tie }).collect::<Vec<_>>()
    };
    snapshot.blocks().iter().flat_map(of_block).collect()
}

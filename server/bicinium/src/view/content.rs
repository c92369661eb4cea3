//! What the page shows, as plain data: the exercises of a sheet, and one of them with its score, its
//! notes in time, its findings and its text in words. Shows what the analysis says, and reckons nothing.

use bicinium_analysis::Snapshot;
use bicinium_analysis::finding::{Finding, Level};
use bicinium_analysis::rules::wording;
use bicinium_analysis::score::{Score, VoiceId};
use bicinium_export::engraving::{self, Clefs, Paper, Remarks, Style, writers};
use bicinium_export::{Extra, Piece, listing};
use bicinium_theory::Duration;
use serde::Serialize;

use super::watch::Edition;

/// A sheet, and what is in it.
#[derive(Serialize)]
pub(super) struct Contents {
    edition: u64,
    name: String,
    /// Why the sheet cannot be read.
    trouble: Option<String>,
    exercises: Vec<Entry>,
}

/// An exercise in the list.
#[derive(Serialize)]
struct Entry {
    number: usize,
    title: String,
    faults: usize,
    cautions: usize,
}

/// An exercise as it is shown and played. All times are in 64ths of a whole note.
#[derive(Serialize)]
pub(super) struct Shown {
    edition: u64,
    number: usize,
    title: String,
    svg: String,
    words: String,
    beat: u32,
    bar: u32,
    bars: u32,
    voices: [&'static str; 2],
    notes: Vec<Note>,
    findings: Vec<Told>,
}

/// A note that sounds.
#[derive(Serialize)]
struct Note {
    /// 0 for the upper voice, 1 for the lower.
    voice: usize,
    at: u32,
    lasts: u32,
    midi: i16,
    /// What is said when it is chosen.
    said: String,
}

/// A finding.
#[derive(Serialize)]
struct Told {
    number: usize,
    level: &'static str,
    rule: &'static str,
    message: String,
    /// When; nothing if it is about the whole.
    at: Option<u32>,
    /// 0 or 1; nothing if it is about both.
    voice: Option<usize>,
}

/// What is asked about an exercise.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Wish {
    /// Its number, counted from 1.
    pub number: usize,
    /// How wide its score may be, in millimetres.
    pub width: u16,
    /// What is shown beside the notes.
    pub extras: Vec<Extra>,
}

/// The list of the exercises of a sheet.
pub(super) fn contents(edition: &Edition) -> Contents {
    let (exercises, trouble) = match &edition.sheet {
        Ok(sheet) => (pieces(sheet).map(|piece| entry(&piece)).collect(), None),
        Err(reason) => (Vec::new(), Some(reason.clone())),
    };
    Contents { edition: edition.number, name: edition.name.clone(), trouble, exercises }
}

/// One exercise; none if there is no such.
pub(super) fn shown(edition: &Edition, wish: &Wish) -> Option<Shown> {
    let sheet = edition.sheet.as_ref().ok()?;
    let piece = pieces(sheet).find(|piece| piece.number == wish.number)?;
    let score = &piece.exercise.score;
    let paper = Paper::Strip(wish.width);
    // The page itself tells what was found, where it can be chosen.
    let (clefs, remarks) = (Clefs::Modern, Remarks::Elsewhere);
    let style = Style { paper, extras: wish.extras.clone(), clefs, remarks };
    let strip = engraving::pages(&[piece], &style).into_iter().next()?;
    let setting = &score.setting;
    Some(Shown {
        edition: edition.number,
        number: piece.number,
        title: piece.title(),
        svg: writers::svg(&strip, &piece.title()),
        words: listing::listing(&piece, &wish.extras),
        beat: setting.bar_length().ticks() / u32::from(setting.meter.beats.max(1)),
        bar: setting.bar_length().ticks(),
        bars: setting.bars,
        voices: VoiceId::BOTH.map(|voice| setting.registers[voice].name()),
        notes: VoiceId::BOTH.into_iter().flat_map(|voice| notes(score, voice)).collect(),
        findings: piece.told().map(|(number, finding)| told(number, finding)).collect(),
    })
}

fn pieces(sheet: &Snapshot) -> impl Iterator<Item = Piece<'_>> {
    sheet.exercises().map(|(number, block, exercise)| Piece {
        number,
        exercise,
        findings: &block.judged.findings,
    })
}

fn entry(piece: &Piece<'_>) -> Entry {
    let count = |is_meant: fn(Level) -> bool| {
        piece.told().filter(|(_, finding)| is_meant(finding.level)).count()
    };
    Entry {
        number: piece.number,
        title: piece.title(),
        faults: count(|level| level <= Level::Fault),
        cautions: count(|level| level == Level::Caution),
    }
}

fn notes(score: &Score, voice: VoiceId) -> impl Iterator<Item = Note> + '_ {
    score.lines[voice].events.iter().filter_map(move |event| {
        let pitch = event.pitch()?;
        let place = wording::place(&score.setting, event.onset);
        Some(Note {
            voice: index(voice),
            at: event.onset.ticks(),
            lasts: event.duration.ticks(),
            midi: pitch.midi(),
            said: format!("{pitch}, {} voice, {place}", voice.name()),
        })
    })
}

fn told(number: usize, finding: &Finding) -> Told {
    Told {
        number,
        level: finding.level.name(),
        rule: finding.rule,
        message: finding.message.clone(),
        at: finding.place.map(|place| Duration::ticks(place.onset)),
        voice: finding.voice.map(index),
    }
}

fn index(voice: VoiceId) -> usize {
    match voice {
        VoiceId::Upper => 0,
        VoiceId::Lower => 1,
    }
}

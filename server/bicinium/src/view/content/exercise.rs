//! An exercise as it is shown and played, as it stands or with something tried in an open place.

use bicinium_analysis::finding::Finding;
use bicinium_analysis::reading::Stretch;
use bicinium_analysis::rules::wording;
use bicinium_analysis::score::{Score, Sound, VoiceId};
use bicinium_export::engraving::{self, Clefs, Paper, Remarks, Style, writers};
use bicinium_export::{Extra, Piece, listing};
use bicinium_theory::{Duration, Key, Numeral};
use serde::Serialize;

use super::{chord, pieces};
use crate::features::realizing::{Choice, Choices, with_choice};
use crate::view::edition::Edition;
use crate::view::places::{self, Spot, index};

/// An exercise. All times are in 64ths of a whole note.
#[derive(Serialize)]
pub(in crate::view) struct Shown {
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
    open: Vec<Open>,
    harmonies: Vec<Harmony>,
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

/// A place at which something is to be chosen.
#[derive(Serialize)]
struct Open {
    voice: usize,
    at: u32,
    /// Where it is, in words.
    said: String,
    /// What is there.
    what: &'static str,
}

/// How a stretch is heard, and what else it could be, the likeliest first.
#[derive(Serialize)]
struct Harmony {
    at: u32,
    end: u32,
    heard: Vec<Heard>,
}

/// A harmony, and the MIDI numbers of its chord.
#[derive(Serialize)]
struct Heard {
    numeral: String,
    chord: Vec<i16>,
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
pub(in crate::view) struct Wish {
    /// Its number, counted from 1.
    pub number: usize,
    /// How wide its score may be, in millimetres.
    pub width: u16,
    /// What is shown beside the notes.
    pub extras: Vec<Extra>,
}

/// One exercise; none if there is no such.
pub(in crate::view) fn shown(edition: &Edition, wish: &Wish) -> Option<Shown> {
    let sheet = edition.sheet.as_ref().ok()?;
    let piece = pieces(sheet).find(|piece| piece.number == wish.number)?;
    show(edition.number, piece, wish)
}

/// The same with one of the choices tried, judged anew; none if there is no such.
pub(in crate::view) fn tried(
    edition: &Edition,
    spot: Spot,
    choices: &Choices,
    choice: usize,
    wish: &Wish,
) -> Option<Shown> {
    let (_, exercise) = spot.exercise(edition.sheet.as_ref().ok()?)?;
    let choice: &Choice = choices.choices.get(choice)?;
    let exercise = with_choice(exercise, &choices.open, choice);
    let findings = exercise.findings();
    let piece = Piece { number: spot.number, exercise: &exercise, findings: &findings };
    show(edition.number, piece, wish)
}

fn show(edition: u64, piece: Piece<'_>, wish: &Wish) -> Option<Shown> {
    let score = &piece.exercise.score;
    let paper = Paper::Snug(wish.width);
    // The page itself tells what was found, where it can be chosen.
    let (clefs, remarks) = (Clefs::Modern, Remarks::Elsewhere);
    let style = Style { paper, extras: wish.extras.clone(), clefs, remarks };
    let strip = engraving::pages(&[piece], &style).into_iter().next()?;
    let setting = &score.setting;
    let stretches = &piece.exercise.verdict.reading.stretches;
    Some(Shown {
        edition,
        number: piece.number,
        title: piece.title(),
        svg: writers::svg(&strip, &piece.title()),
        words: listing::listing(&piece, &wish.extras),
        beat: setting.bar_length().ticks() / u32::from(setting.meter.beats.max(1)),
        bar: setting.bar_length().ticks(),
        bars: setting.bars,
        voices: VoiceId::BOTH.map(|voice| setting.registers[voice].name()),
        notes: VoiceId::BOTH.into_iter().flat_map(|voice| notes(score, voice)).collect(),
        open: open(&piece),
        harmonies: stretches.iter().map(|stretch| harmony(stretch, setting.key)).collect(),
        findings: piece.told().map(|(number, finding)| told(number, finding)).collect(),
    })
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

fn open(piece: &Piece<'_>) -> Vec<Open> {
    let setting = &piece.exercise.score.setting;
    let open = places::open(piece.exercise).into_iter();
    open.map(|(voice, event)| {
        let place = wording::place(setting, event.onset);
        Open {
            voice: index(voice),
            at: event.onset.ticks(),
            said: format!("{place}, {} voice", voice.name()),
            what: if event.sound == Sound::Blank { "blank bar" } else { "hole" },
        }
    })
    .collect()
}

fn harmony(stretch: &Stretch, key: Key) -> Harmony {
    let others = stretch.alternatives.iter().map(|other| other.numeral);
    let heard = |numeral: Numeral| Heard {
        numeral: numeral.to_string(),
        chord: chord::close(numeral, key),
    };
    Harmony {
        at: stretch.onset.ticks(),
        end: stretch.end.ticks(),
        heard: [stretch.numeral].into_iter().chain(others).map(heard).collect(),
    }
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

//! What stands in an exercise, bar by bar and column by column: what begins at one instant stands in
//! one column, with what belongs to it above, between and below. Knows no positions.

use bicinium_analysis::finding::Level;
use bicinium_analysis::score::{Pair, Score, Setting, Sound, VoiceId};
use bicinium_theory::{Duration, NoteValue};

use super::Style;
use super::note;
use crate::accidentals::{Printed, Said};
use crate::beaming;
use crate::clef::Clef;
use crate::extra::Extra;
use crate::intervals;
use crate::piece::Piece;
use crate::written::{self, Sign};

/// How wide a column is at least, in staff spaces.
const NARROWEST: f64 = 1.18;

/// An exercise as it is to be engraved.
#[derive(Debug)]
pub(super) struct Music<'a> {
    /// Its number in the sheet.
    pub number: usize,
    /// What it is set in.
    pub setting: &'a Setting,
    /// The clefs of its staves.
    pub clefs: Pair<Clef>,
    /// Its bars.
    pub bars: Vec<Bar>,
}

/// A bar.
#[derive(Debug)]
pub(super) struct Bar {
    /// How long it is.
    pub length: Duration,
    /// What begins in it, in order of time.
    pub columns: Vec<Column>,
}

/// What begins at an instant.
#[derive(Debug, Default)]
pub(super) struct Column {
    /// When.
    pub at: Duration,
    /// How long it is until something else begins.
    pub lasts: Duration,
    /// The notes, rests and holes.
    pub entries: Pair<Option<Entry>>,
    /// The interval between the voices, as its number.
    pub figure: Option<u16>,
    /// The harmony that begins.
    pub harmony: Option<Harmony>,
    /// What was found.
    pub flags: Pair<Vec<Flag>>,
}

/// A note, rest or hole.
#[derive(Clone, Copy, Debug)]
pub(super) struct Entry {
    /// What it is.
    pub sign: Sign,
    /// Its accidental.
    pub printed: Printed,
    /// The number of its beam within the bar and the voice.
    pub beam: Option<usize>,
}

/// A Roman numeral.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Harmony {
    /// The numeral.
    pub text: String,
    /// Whether it goes on from the bar before, with the same bass.
    pub goes_on: bool,
}

/// A finding at a note.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Flag {
    /// Its number in the list below the music.
    pub number: usize,
    /// How much it matters.
    pub level: Level,
}

impl<'a> Music<'a> {
    /// What stands in an exercise.
    pub fn of(piece: &Piece<'a>, style: &Style) -> Self {
        let score = &piece.exercise.score;
        let setting = &score.setting;
        let clefs = Pair::from_fn(|voice| Clef::of(setting.registers[voice], style.clefs));
        let mut music = Self { number: piece.number, setting, clefs, bars: bars(score) };
        for extra in &style.extras {
            match extra {
                Extra::Figures => music.take_figures(score),
                Extra::Harmonies => music.take_harmonies(piece),
                Extra::Findings => music.take_findings(piece),
            }
        }
        music
    }

    /// The column at or before an instant.
    fn column_at(&mut self, at: Duration) -> Option<&mut Column> {
        let index = usize::try_from(self.setting.bar_of(at)).ok()?;
        let columns = &mut self.bars.get_mut(index)?.columns;
        columns.iter_mut().rfind(|column| column.at <= at)
    }

    fn take_figures(&mut self, score: &Score) {
        for standing in intervals::of(score) {
            if let Some(column) = self.column_at(standing.at) {
                column.figure = Some(standing.interval.number());
            }
        }
    }

    fn take_harmonies(&mut self, piece: &Piece<'_>) {
        let mut before: Option<(Duration, String)> = None;
        for stretch in &piece.exercise.verdict.reading.stretches {
            let text = stretch.numeral.to_string();
            let same =
                before.as_ref().is_some_and(|(end, last)| *end == stretch.onset && *last == text);
            let goes_on = same && stretch.prolonged_from.is_some();
            if let Some(column) = self.column_at(stretch.onset) {
                column.harmony = Some(Harmony { text: text.clone(), goes_on });
            }
            before = Some((stretch.end, text));
        }
    }

    fn take_findings(&mut self, piece: &Piece<'_>) {
        for (number, finding) in piece.told() {
            let flag = Flag { number, level: finding.level };
            let Some(place) = finding.place else { continue };
            let Some(column) = self.column_at(place.onset) else { continue };
            for voice in VoiceId::BOTH {
                if finding.voice.is_none_or(|it| it == voice) {
                    column.flags[voice].push(flag);
                }
            }
        }
    }
}

impl Column {
    /// The middle of its widest head, seen from the left edges of the heads.
    pub fn middle(&self) -> f64 {
        let entries = VoiceId::BOTH.into_iter().filter_map(|voice| self.entries[voice]);
        let notes = entries.filter(|entry| matches!(entry.sign.sound, Sound::Note(_)));
        let widths = notes.map(|entry| note::head_width(entry.sign.length.value));
        widths.fold(NARROWEST, f64::max) / 2.0
    }
}

impl Entry {
    /// Whether it is drawn with a stem.
    pub fn has_stem(&self) -> bool {
        let is_short = !matches!(self.sign.length.value, NoteValue::Breve | NoteValue::Whole);
        matches!(self.sign.sound, Sound::Note(_)) && is_short
    }
}

fn bars(score: &Score) -> Vec<Bar> {
    let mut written = Pair::from_fn(|voice| entries(score, voice).into_iter());
    let setting = &score.setting;
    let bar = |index: u32| {
        let upper = written.upper.next().unwrap_or_default();
        let lower = written.lower.next().unwrap_or_default();
        let end = setting.bar_start(index + 1);
        Bar { length: setting.bar_length(), columns: columns(&upper, &lower, end) }
    };
    (0..setting.bars).map(bar).collect()
}

/// The bars of a voice.
fn entries(score: &Score, voice: VoiceId) -> Vec<Vec<Entry>> {
    let mut said = Said::by(score.setting.key);
    let bar = |signs: Vec<Sign>| {
        said.pass_barline();
        let beams = beaming::groups(&signs, &score.setting);
        let entry = |(sign, beam): (Sign, Option<usize>)| {
            let printed = match sign.sound {
                Sound::Note(pitch) if !sign.tie.stops => said.strike(pitch),
                _ => Printed::Nothing,
            };
            Entry { sign, printed, beam }
        };
        signs.into_iter().zip(beams).map(entry).collect()
    };
    written::bars(score, voice).into_iter().map(bar).collect()
}

fn columns(upper: &[Entry], lower: &[Entry], end: Duration) -> Vec<Column> {
    let mut onsets: Vec<_> = upper.iter().chain(lower).map(|entry| entry.sign.onset).collect();
    onsets.sort_unstable();
    onsets.dedup();
    let find = |entries: &[Entry], at| entries.iter().find(|it| it.sign.onset == at).copied();
    let ends = onsets.iter().skip(1).copied().chain([end]);
    let column = |(at, next): (Duration, Duration)| Column {
        at,
        lasts: next - at,
        entries: Pair { upper: find(upper, at), lower: find(lower, at) },
        ..Column::default()
    };
    onsets.iter().copied().zip(ends).map(column).collect()
}

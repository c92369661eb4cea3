//! A voice in a system: its notes, rests and holes at their places, with beams and ties. Heights are
//! measured from the top line of its staff. Knows nothing of the other voice.

use bicinium_analysis::rules::wording;
use bicinium_analysis::score::{Sound, VoiceId};
use bicinium_theory::Pitch;

use super::beams::{self, Beamed};
use super::content::{Bar, Entry, Music};
use super::display::Group;
use super::grid::{Grid, Span};
use super::note::{self, Pointing, Stem};
use super::staff;
use super::ties;
use crate::beaming;

/// A sign at its place.
#[derive(Clone, Copy)]
struct Standing<'a> {
    entry: &'a Entry,
    x: f64,
}

/// A note at its place.
#[derive(Clone, Copy)]
struct Sung {
    pitch: Pitch,
    place: i16,
}

/// All that a voice has in a system.
pub(super) fn draw(music: &Music<'_>, voice: VoiceId, grid: &Grid) -> Vec<Group> {
    let writer = Writer { music, voice };
    let mut groups = Vec::new();
    let mut standing = Vec::new();
    for span in &grid.bars {
        let Some(bar) = music.bars.get(span.index) else { continue };
        let here = in_bar(bar, span, voice);
        groups.extend(writer.bar(bar, span, &here));
        standing.extend(here);
    }
    groups.extend(writer.ties(&standing, grid));
    groups
}

/// What a voice has in a bar.
fn in_bar<'a>(bar: &'a Bar, span: &Span, voice: VoiceId) -> Vec<Standing<'a>> {
    let columns = bar.columns.iter().zip(&span.columns);
    let standing = |(column, x): (&'a _, &f64)| {
        let column: &'a super::content::Column = column;
        Some(Standing { entry: column.entries[voice].as_ref()?, x: *x })
    };
    columns.filter_map(standing).collect()
}

struct Writer<'a> {
    music: &'a Music<'a>,
    voice: VoiceId,
}

impl Writer<'_> {
    fn bar(&self, bar: &Bar, span: &Span, standing: &[Standing<'_>]) -> Vec<Group> {
        let mut groups = Vec::new();
        for run in standing.chunk_by(|a, b| a.entry.beam.is_some() && a.entry.beam == b.entry.beam)
        {
            if run.len() > 1 {
                groups.extend(self.beamed(run));
            } else {
                groups.extend(run.iter().filter_map(|it| self.alone(bar, span, *it)));
            }
        }
        groups
    }

    fn alone(&self, bar: &Bar, span: &Span, standing: Standing<'_>) -> Option<Group> {
        let group = if note::fills_bar(standing.entry, bar.length) {
            let mut rest = note::bar_rest(bar.length);
            let width = rest.bounds().map_or(0.0, |bounds| bounds.left + bounds.right);
            rest.shift(f64::midpoint(span.left, span.right) - width / 2.0, 0.0);
            rest
        } else {
            let mut sign = note::alone(standing.entry, self.music.clefs[self.voice])?;
            sign.shift(standing.x, 0.0);
            sign
        };
        Some(self.named(group, standing.entry))
    }

    fn beamed(&self, run: &[Standing<'_>]) -> Vec<Group> {
        let sung: Vec<_> = run.iter().filter_map(|it| self.sung(it.entry)).collect();
        if sung.len() != run.len() {
            return Vec::new();
        }
        let pointing = Pointing::of(sung.iter().map(|it| it.place));
        let beamed = |(standing, sung): (&Standing<'_>, &Sung)| {
            let value = standing.entry.sign.length.value;
            Beamed {
                x: standing.x + note::stem_x(value, pointing),
                head: staff::height_of(sung.place),
                beams: beaming::count(value),
            }
        };
        let notes: Vec<_> = run.iter().zip(&sung).map(beamed).collect();
        let tips = beams::tips(&notes, pointing);
        let mut groups: Vec<_> = run
            .iter()
            .zip(&sung)
            .zip(&tips)
            .map(|((standing, sung), tip)| {
                let stem = Stem { pointing, tip: *tip, is_flagged: false };
                let clef = self.music.clefs[self.voice];
                let mut group = note::note(standing.entry, sung.pitch, clef, Some(stem));
                group.shift(standing.x, 0.0);
                self.named(group, standing.entry)
            })
            .collect();
        groups.push(beams::draw(&notes, &tips, pointing));
        groups
    }

    fn sung(&self, entry: &Entry) -> Option<Sung> {
        let Sound::Note(pitch) = entry.sign.sound else { return None };
        Some(Sung { pitch, place: staff::place(self.music.clefs[self.voice], pitch) })
    }

    /// The group with its id, and in words.
    fn named(&self, mut group: Group, entry: &Entry) -> Group {
        let sign = &entry.sign;
        let (number, voice) = (self.music.number, self.voice.name());
        group.id = Some(format!("x{number}-{voice}-{}", sign.onset.ticks()));
        let place = wording::place(self.music.setting, sign.onset);
        let what = match sign.sound {
            Sound::Note(pitch) if sign.tie.stops => format!("{pitch} held, {}", sign.length),
            Sound::Note(pitch) => format!("{pitch}, {}", sign.length),
            Sound::Rest => format!("rest, {}", sign.length),
            Sound::Held => format!("held from what is to be chosen, {}", sign.length),
            Sound::Hole | Sound::Blank => format!("to be chosen, {}", sign.length),
        };
        group.label = Some(format!("{what}, {voice} voice, {place}"));
        group
    }

    fn ties(&self, standing: &[Standing<'_>], grid: &Grid) -> Vec<Group> {
        let mut groups = Vec::new();
        for (index, here) in standing.iter().enumerate() {
            let Some(sung) = self.sung(here.entry) else { continue };
            let head = staff::height_of(sung.place);
            let stem = self.stem_side(standing, index, sung);
            let is_cut = index == 0 && here.entry.sign.tie.stops;
            if is_cut {
                let left = grid.bars.first().map_or(here.x, |bar| bar.left) - 0.5;
                groups.push(ties::tie(left, here.x, head, stem));
            }
            if here.entry.sign.tie.starts {
                let left = here.x + right_of(here.entry);
                let right = standing.get(index + 1).map_or(grid.right() - 0.3, |next| next.x);
                groups.push(ties::tie(left, right, head, stem));
            }
        }
        groups
    }

    /// The way the stem of a note points, or would if it had one.
    fn stem_side(&self, standing: &[Standing<'_>], index: usize, sung: Sung) -> Pointing {
        let here = standing[index].entry;
        let is_fellow = |it: &&Standing<'_>| {
            let sign = &it.entry.sign;
            let bar = |onset| self.music.setting.bar_of(onset);
            here.beam.is_some()
                && it.entry.beam == here.beam
                && bar(sign.onset) == bar(here.sign.onset)
        };
        let fellows = standing.iter().filter(is_fellow).filter_map(|it| self.sung(it.entry));
        Pointing::of(fellows.map(|it| it.place).chain([sung.place]))
    }
}

/// Where a head with its dot ends, seen from its left edge.
fn right_of(entry: &Entry) -> f64 {
    let head = note::head_width(entry.sign.length.value);
    if entry.sign.length.dots > 0 { head + 0.8 } else { head }
}

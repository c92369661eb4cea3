//! A system: two staves, one under the other, with what stands above, between and below. Decides how
//! far apart the staves stand. Knows nothing of pages.

use bicinium_analysis::score::{Pair, VoiceId};

use super::between;
use super::content::{Column, Music};
use super::display::{Group, Ink};
use super::font::Font;
use super::geometry::{Point, Rect};
use super::grid::{Grid, Place};
use super::lead::{self, Lead};
use super::marks::{self, Side};
use super::skyline::Skyline;
use super::spacing::Room;
use super::staff;
use super::voice;
use super::words::{Align, Lettering};

/// The least distance from the upper staff to the lower one.
const STAVES_APART: f64 = 5.0;
/// Distance of rows from what stands over and under them.
const CLEAR: f64 = 0.7;
/// How far a numeral stays from the mark of a note, so that the mark is not taken for the numeral's.
const BESIDE: f64 = 0.8;
/// The height of the letters of a numeral with what is stacked beside it.
const NUMERAL_HEIGHT: f64 = 2.3;

const BAR_NUMBER: Lettering = Lettering { font: Font::Italic, size: 1.7, ink: Ink::Grey };

/// Where a system begins and ends, staves included.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Frame {
    /// Where its staves begin.
    pub left: f64,
    /// Where its staves end.
    pub right: f64,
}

/// Engraves bars as a system, the top line of the upper staff at the height zero.
pub(super) fn engrave(
    music: &Music<'_>,
    rooms: &[Room],
    bars: std::ops::Range<usize>,
    frame: Frame,
) -> Vec<Group> {
    let is_first = bars.start == 0;
    let is_last = bars.end == rooms.len();
    let lead = lead::lead(music, frame.left, is_first);
    let place = Place { bars, left: lead.right, right: frame.right, is_last };
    let grid = Grid::new(rooms, &place);
    let mut system = System::new(music, &grid, lead);
    system.place_marks();
    if !is_first {
        system.number_bar(place.bars.start + 1, frame.left);
    }
    let rows = system.rows();
    let height = rows.lower + staff::HEIGHT;
    let right = grid.right();
    let staves = [0.0, rows.lower].into_iter().map(|top| {
        let mut lines = staff::lines(frame.left, right);
        lines.shift(0.0, top);
        lines
    });
    let barline = |(index, span): (usize, &super::grid::Span)| {
        let ends = is_last && index + 1 == grid.bars.len();
        lead::barline(span.right, 0.0, height, ends)
    };
    let mut groups: Vec<_> = staves.collect();
    groups.push(lead::bracket(frame.left, 0.0, height));
    groups.extend(grid.bars.iter().enumerate().map(barline));
    groups.extend(system.finish(&rows));
    groups
}

/// A system whose staves are not yet put under each other: each is measured from its own top line.
struct System<'a> {
    music: &'a Music<'a>,
    grid: &'a Grid,
    staves: Pair<Vec<Group>>,
    skylines: Pair<Skyline>,
}

/// The heights of the rows, measured from the top line of the upper staff.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Rows {
    /// The lower edge of the figures.
    figures: f64,
    /// The top line of the lower staff.
    lower: f64,
    /// The baseline of the numerals.
    numerals: f64,
}

impl<'a> System<'a> {
    fn new(music: &'a Music<'a>, grid: &'a Grid, lead: Lead) -> Self {
        let mut staves = lead.groups;
        for voice in VoiceId::BOTH {
            staves[voice].extend(voice::draw(music, voice, grid));
        }
        let skylines = Pair::from_fn(|voice| Skyline::of(&staves[voice]));
        Self { music, grid, staves, skylines }
    }

    /// The columns with their positions.
    fn columns(&self) -> impl Iterator<Item = (&'a Column, f64)> + use<'a> {
        let (music, grid) = (self.music, self.grid);
        grid.bars.iter().flat_map(move |span| {
            let columns = music.bars.get(span.index).map_or(&[][..], |bar| &bar.columns);
            columns.iter().zip(span.columns.iter().copied())
        })
    }

    /// Puts the marks above the upper and below the lower staff, next to their notes.
    fn place_marks(&mut self) {
        let columns: Vec<_> = self.columns().collect();
        for (column, x) in columns {
            for voice in VoiceId::BOTH {
                for flag in &column.flags[voice] {
                    let side = if voice == VoiceId::Upper { Side::Above } else { Side::Below };
                    self.place_mark(voice, marks::mark(*flag, side), x + column.middle(), side);
                }
            }
        }
    }

    fn place_mark(&mut self, voice: VoiceId, mut mark: Group, x: f64, side: Side) {
        mark.shift(x, 0.0);
        let Some(bounds) = mark.bounds() else { return };
        let skyline = &mut self.skylines[voice];
        let y = match side {
            Side::Above => skyline.top(bounds.left, bounds.right).unwrap_or(0.0).min(0.0) - 0.4,
            Side::Below => {
                let bottom = skyline.bottom(bounds.left, bounds.right).unwrap_or(0.0);
                bottom.max(staff::HEIGHT) + 0.4
            }
        };
        mark.shift(0.0, y);
        skyline.add(&mark);
        self.staves[voice].push(mark);
    }

    fn number_bar(&mut self, number: usize, left: f64) {
        let mut group =
            BAR_NUMBER.group(&number.to_string(), Point::new(left + 1.0, 0.0), Align::Left);
        let Some(bounds) = group.bounds() else { return };
        let skyline = &mut self.skylines.upper;
        let top = skyline.top(bounds.left, bounds.right + 0.3).unwrap_or(0.0).min(0.0);
        group.shift(0.0, top - 0.6);
        skyline.add(&group);
        self.staves.upper.push(group);
    }

    fn rows(&self) -> Rows {
        let figures: Vec<Rect> = self.figures().filter_map(|group| group.bounds()).collect();
        let height = figures.iter().map(|it| it.height()).fold(0.0, f64::max);
        let over = |it: &Rect| self.skylines.upper.bottom(it.left - 0.2, it.right + 0.2);
        let under = |it: &Rect| self.skylines.lower.top(it.left - 0.2, it.right + 0.2);
        let top = figures.iter().filter_map(over).fold(staff::HEIGHT, f64::max) + CLEAR;
        let rise = figures.iter().filter_map(under).fold(0.0, f64::min);
        let row = if figures.is_empty() { 0.0 } else { top + height + CLEAR - rise };
        let clear = self.skylines.upper.clearance(&self.skylines.lower) + CLEAR;
        let lower = row.max(clear).max(staff::HEIGHT + STAVES_APART);
        // The figures stand in the middle of what is free.
        let free = lower + rise - CLEAR - (top + height);
        let numerals: Vec<Rect> = self.numerals().filter_map(|group| group.bounds()).collect();
        let deep = |it: &Rect| self.skylines.lower.bottom(it.left - BESIDE, it.right + BESIDE);
        let bottom = numerals.iter().filter_map(deep).fold(staff::HEIGHT, f64::max);
        Rows {
            figures: top + height + free / 2.0,
            lower,
            numerals: lower + bottom + CLEAR + NUMERAL_HEIGHT,
        }
    }

    fn figures(&self) -> impl Iterator<Item = Group> {
        self.columns().filter_map(|(column, x)| {
            let mut group = between::figure(column.figure?, column.middle());
            group.shift(x, 0.0);
            Some(group)
        })
    }

    /// The numerals, and lines from each to the end of what it holds.
    fn numerals(&self) -> impl Iterator<Item = Group> {
        let mut groups: Vec<Group> = Vec::new();
        let mut last: Option<f64> = None;
        for (column, x) in self.columns() {
            let Some(harmony) = &column.harmony else { continue };
            if let Some(from) = last.filter(|_| harmony.goes_on) {
                groups.push(between::prolongation(from + 0.3, x + 1.2));
                last = Some(x + 0.9);
                continue;
            }
            let mut group = between::numeral(&harmony.text);
            group.shift(x, 0.0);
            last = group.bounds().map(|bounds| bounds.right);
            groups.push(group);
        }
        groups.into_iter()
    }

    /// All of it, the staves under each other.
    fn finish(self, rows: &Rows) -> Vec<Group> {
        let put = |mut group: Group, y: f64| {
            group.shift(0.0, y);
            group
        };
        let figures: Vec<_> = self.figures().map(|it| put(it, rows.figures)).collect();
        let numerals: Vec<_> = self.numerals().map(|it| put(it, rows.numerals)).collect();
        let lower = self.staves.lower.into_iter().map(|it| put(it, rows.lower));
        self.staves.upper.into_iter().chain(lower).chain(figures).chain(numerals).collect()
    }
}

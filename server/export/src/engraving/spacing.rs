//! How far apart columns stand: no nearer than what is in them allows, and farther the longer they
//! last. Knows widths, not what is drawn.

use bicinium_analysis::score::{Setting, Sound, VoiceId};
use bicinium_theory::Duration;

use super::between;
use super::content::{Bar, Column, Music};
use super::geometry::Rect;
use super::marks;
use super::note;

/// The room between two columns, or between a column and a barline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Gap {
    /// The least, in staff spaces.
    pub least: f64,
    /// What it would be if it were bound by nothing; zero for what does not stretch.
    pub spring: f64,
}

/// The room that a bar takes: before its first column, between its columns, and after the last.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Room {
    /// One more than there are columns.
    pub gaps: Vec<Gap>,
}

/// Distance of a barline from what comes after it.
const AFTER_BARLINE: f64 = 0.9;
/// Distance of what stands in neighbouring columns, and of the last column from the barline.
const BETWEEN: f64 = 0.5;
/// What a quarter note takes if it is bound by nothing.
const QUARTER: f64 = 3.5;

impl Gap {
    /// How wide it is when springs are stretched by a factor.
    pub fn at(self, stretch: f64) -> f64 {
        self.least.max(self.spring * stretch)
    }
}

impl Room {
    /// How wide the bar is when springs are stretched by a factor.
    pub fn at(&self, stretch: f64) -> f64 {
        self.gaps.iter().map(|gap| gap.at(stretch)).sum()
    }

    /// The least that the bar needs.
    pub fn least(&self) -> f64 {
        self.gaps.iter().map(|gap| gap.least).sum()
    }
}

/// The room that a bar takes.
pub(super) fn room(music: &Music<'_>, bar: &Bar) -> Room {
    let extents: Vec<_> = bar.columns.iter().map(|column| extent(music, bar, column)).collect();
    let first = extents.first().map_or(0.0, |extent| -extent.left);
    let mut gaps = vec![Gap { least: AFTER_BARLINE + first, spring: 0.0 }];
    for (index, column) in bar.columns.iter().enumerate() {
        let next = extents.get(index + 1).map_or(0.0, |extent| -extent.left);
        let least = extents[index].right + next + BETWEEN;
        gaps.push(Gap { least, spring: spring(music.setting, column) });
    }
    between::keep_numerals_apart(bar, &mut gaps);
    Room { gaps }
}

/// What is in a column, seen from the left edge of its heads.
fn extent(music: &Music<'_>, bar: &Bar, column: &Column) -> Rect {
    let entries = VoiceId::BOTH.into_iter().filter_map(|voice| {
        let entry = column.entries[voice].filter(|it| !note::fills_bar(it, bar.length))?;
        note::alone(&entry, music.clefs[voice])?.bounds()
    });
    let middle = column.middle();
    let figure = column.figure.and_then(|number| between::figure(number, middle).bounds());
    let flags = VoiceId::BOTH.into_iter().flat_map(|voice| &column.flags[voice]);
    let marks = flags.filter_map(|flag| marks::mark(*flag, marks::Side::Above).bounds());
    let marks = marks.map(|bounds| bounds.moved(middle, 0.0));
    entries.chain(figure).chain(marks).fold(Rect::new(0.0, 0.0, 0.0, 0.0), Rect::union)
}

/// What a column would take: twice as long is half as wide again.
fn spring(setting: &Setting, column: &Column) -> f64 {
    let length =
        |duration: Duration| f64::from(duration.ticks()) / f64::from(Duration::QUARTER.ticks());
    let plain = QUARTER * length(column.lasts).sqrt();
    let is_open = VoiceId::BOTH
        .into_iter()
        .filter_map(|voice| column.entries[voice])
        .any(|entry| entry.sign.sound == Sound::Blank);
    if !is_open {
        return plain;
    }
    // Room for the notes that the species asks for, to be written by hand.
    let notes = match setting.species {
        Some(1) => 1.0,
        Some(3 | 5) => 4.0,
        _ => 2.0,
    };
    plain.max(notes * QUARTER * (length(column.lasts) / notes).sqrt())
}

/// The stretch at which gaps fill a width; none if they need more even at their least.
pub(super) fn stretch_to(gaps: &[Gap], width: f64) -> Option<f64> {
    let least: f64 = gaps.iter().map(|gap| gap.least).sum();
    if least > width {
        return None;
    }
    let mut stretch = f64::INFINITY;
    loop {
        // What is bound by its least width at this stretch, and what is not.
        let is_free = |gap: &&Gap| gap.spring * stretch > gap.least;
        let springs: f64 = gaps.iter().filter(is_free).map(|gap| gap.spring).sum();
        let bound: f64 = gaps.iter().filter(|gap| !is_free(gap)).map(|gap| gap.least).sum();
        if springs <= 0.0 {
            return Some(0.0);
        }
        let next = (width - bound) / springs;
        if next >= stretch {
            return Some(next);
        }
        stretch = next;
    }
}

/// How wide the gaps are: stretched so as to fill the width, and never less than they need.
pub(super) fn filled(gaps: &[Gap], width: f64) -> Vec<f64> {
    let stretch = stretch_to(gaps, width).unwrap_or(0.0);
    gaps.iter().map(|gap| gap.at(stretch)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sum(gaps: &[f64]) -> f64 {
        gaps.iter().sum()
    }

    #[test]
    fn gaps_fill_the_width_and_never_fall_below_their_least() {
        let gaps = [(1.0, 0.0), (2.0, 3.5), (6.0, 3.5), (1.0, 7.0)]
            .map(|(least, spring)| Gap { least, spring });
        for width in [10.0, 12.5, 20.0, 100.0] {
            let filled = filled(&gaps, width);
            assert!((sum(&filled) - width).abs() < 1e-9, "{width}: {filled:?}");
            assert!(filled.iter().zip(&gaps).all(|(it, gap)| *it >= gap.least), "{filled:?}");
        }
        // The rigid ones do not stretch, and equal springs stretch alike once both are free.
        let wide = filled(&gaps, 100.0);
        assert!((wide[0] - 1.0).abs() < 1e-9 && (wide[1] - wide[2]).abs() < 1e-9, "{wide:?}");
        assert!((wide[3] / wide[1] - 2.0).abs() < 1e-9, "{wide:?}");
    }

    #[test]
    fn what_does_not_fit_is_not_pressed_together() {
        let gaps = [Gap { least: 3.0, spring: 1.0 }, Gap { least: 1.0, spring: 1.0 }];
        assert_eq!(filled(&gaps, 2.0), [3.0, 1.0]);
    }
}

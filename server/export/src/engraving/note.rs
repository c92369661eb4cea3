//! A note, rest or hole as it is drawn: head, accidental, dots, ledger lines, stem and flag. Knows its
//! staff, not its neighbours.

use bicinium_analysis::score::Sound;
use bicinium_theory::{Duration, NoteValue, Pitch};

use super::content::Entry;
use super::display::{Group, Ink, Kind, STAFF, Shape, text_width};
use super::font::Font;
use super::geometry::{Point, Rect};
use super::staff;
use super::symbol;
use crate::accidentals::Printed;
use crate::beaming;
use crate::clef::Clef;
use crate::written::Sign;

/// Which way a stem points.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Pointing {
    /// Up, to the right of the head.
    Up,
    /// Down, to its left.
    Down,
}

/// A stem.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Stem {
    /// Which way it points.
    pub pointing: Pointing,
    /// The height at which it ends.
    pub tip: f64,
    /// Whether it carries its flags; else a beam does.
    pub is_flagged: bool,
}

/// Distance from an accidental to the head.
const ACCIDENTAL_GAP: f64 = 0.3;
/// Distance from a head to its dot.
const DOT_GAP: f64 = 0.4;
/// The em of the small note that tells the length of a hole.
const SMALL: f64 = 2.2;

impl Pointing {
    /// The way the stems of heads at some places point: that of the one farthest from the middle line.
    pub fn of(places: impl Iterator<Item = i16>) -> Self {
        let (mut highest, mut lowest) = (i16::MIN, i16::MAX);
        for place in places {
            highest = highest.max(place);
            lowest = lowest.min(place);
        }
        if highest.saturating_sub(4) >= 4_i16.saturating_sub(lowest) {
            Self::Down
        } else {
            Self::Up
        }
    }
}

impl Stem {
    /// The stem of a note that stands alone.
    pub fn alone(place: i16, value: NoteValue) -> Self {
        let head = staff::height_of(place);
        let length = default_length(beaming::count(value));
        match Pointing::of([place].into_iter()) {
            Pointing::Up => {
                Self { pointing: Pointing::Up, tip: (head - length).min(2.0), is_flagged: true }
            }
            Pointing::Down => {
                Self { pointing: Pointing::Down, tip: (head + length).max(2.0), is_flagged: true }
            }
        }
    }
}

/// How long a stem with so many beams or flags is at least.
pub(super) fn default_length(beams: u8) -> f64 {
    3.5 + 0.7 * f64::from(beams.saturating_sub(2))
}

/// The width of a head.
pub(super) fn head_width(value: NoteValue) -> f64 {
    Font::Music.advance(symbol::head(value)) * STAFF
}

/// The middle of a stem, seen from the left edge of a head.
pub(super) fn stem_x(value: NoteValue, pointing: Pointing) -> f64 {
    match pointing {
        Pointing::Up => head_width(value) - symbol::STEM / 2.0,
        Pointing::Down => symbol::STEM / 2.0,
    }
}

/// A note with the left edge of its head at zero.
pub(super) fn note(entry: &Entry, pitch: Pitch, clef: Clef, stem: Option<Stem>) -> Group {
    let place = staff::place(clef, pitch);
    let value = entry.sign.length.value;
    let y = staff::height_of(place);
    let mut group = ledger_lines(Group::new(Kind::Note), place, value);
    if let Some(stem) = stem {
        group = stemmed(group, stem, value, y);
    }
    group =
        group.with(Shape::sign(symbol::head(value), Point::new(head_shift(value), y)), Ink::Black);
    group = dotted(group, &entry.sign, dot_height(place));
    altered(group, entry.printed, pitch, y)
}

/// The breve's head has bars on its sides that stand left of its origin in the font.
fn head_shift(value: NoteValue) -> f64 {
    let bounds = Font::Music.bounds(symbol::head(value));
    bounds.map_or(0.0, |bounds| (-bounds.left * STAFF).max(0.0))
}

fn ledger_lines(group: Group, place: i16, value: NoteValue) -> Group {
    let half = symbol::LEDGER / 2.0;
    let (left, right) = (-symbol::LEDGER_REACH, head_width(value) + symbol::LEDGER_REACH);
    staff::ledgers(place).fold(group, |group, y| {
        group.with(Shape::Bar(Rect::new(left, y - half, right, y + half)), Ink::Grey)
    })
}

fn stemmed(group: Group, stem: Stem, value: NoteValue, head: f64) -> Group {
    let x = stem_x(value, stem.pointing);
    let half = symbol::STEM / 2.0;
    let (top, bottom) = match stem.pointing {
        Pointing::Up => (stem.tip, head - symbol::STEM_START),
        Pointing::Down => (head + symbol::STEM_START, stem.tip),
    };
    let group = group.with(Shape::Bar(Rect::new(x - half, top, x + half, bottom)), Ink::Black);
    let Some([up, down]) = symbol::flags(value).filter(|_| stem.is_flagged) else { return group };
    let flag = if stem.pointing == Pointing::Up { up } else { down };
    group.with(Shape::sign(flag, Point::new(x - half, stem.tip)), Ink::Black)
}

/// The dot stands in a space.
fn dot_height(place: i16) -> f64 {
    staff::height_of(if place % 2 == 0 { place + 1 } else { place })
}

fn dotted(group: Group, sign: &Sign, y: f64) -> Group {
    let x = head_width(sign.length.value) + DOT_GAP;
    (0..sign.length.dots)
        .fold(group, |group, _| group.with(Shape::sign(symbol::DOT, Point::new(x, y)), Ink::Black))
}

fn altered(group: Group, printed: Printed, pitch: Pitch, y: f64) -> Group {
    let sign = symbol::accidental(pitch.accidental());
    let text: String = match printed {
        Printed::Nothing => return group,
        Printed::Needed => sign.into(),
        Printed::Courtesy => {
            [symbol::PARENTHESIS_LEFT, sign, symbol::PARENTHESIS_RIGHT].into_iter().collect()
        }
    };
    let has_ledger =
        group.shapes.iter().any(|inked| matches!(inked.shape, Shape::Bar(bar) if bar.left < 0.0));
    let reach = if has_ledger { symbol::LEDGER_REACH } else { 0.0 };
    let x = -text_width(Font::Music, STAFF, &text) - ACCIDENTAL_GAP.max(reach + 0.1);
    group.with(Shape::signs(text, Point::new(x, y), STAFF), Ink::Black)
}

/// The rest of a bar in which nothing else stands, with its left edge at zero: a whole one in every meter in which a
/// bar is no breve.
pub(super) fn bar_rest(bar: Duration) -> Group {
    let is_breve = bar == NoteValue::Breve.duration();
    let value = if is_breve { NoteValue::Breve } else { NoteValue::Whole };
    let sign = Shape::sign(symbol::rest(value), Point::new(0.0, if is_breve { 2.0 } else { 1.0 }));
    Group::new(Kind::Rest).with(sign, Ink::Black)
}

/// A rest with its left edge at zero.
pub(super) fn rest(sign: &Sign) -> Group {
    let value = sign.length.value;
    let y = if value == NoteValue::Whole { 1.0 } else { 2.0 };
    let group = Group::new(Kind::Rest);
    let group = group.with(Shape::sign(symbol::rest(value), Point::new(0.0, y)), Ink::Black);
    dotted(group, sign, 1.5)
}

/// A note not yet chosen: an open mark as high as the staff, with its length above.
pub(super) fn hole(sign: &Sign) -> Group {
    let (width, shoulder) = (1.5, 0.8);
    let corners = vec![
        Point::new(width / 2.0, 0.2),
        Point::new(width, shoulder),
        Point::new(width, staff::HEIGHT - shoulder),
        Point::new(width / 2.0, staff::HEIGHT - 0.2),
        Point::new(0.0, staff::HEIGHT - shoulder),
        Point::new(0.0, shoulder),
    ];
    let mut length = String::from(symbol::small_note(sign.length.value));
    length.extend((0..sign.length.dots).map(|_| symbol::SMALL_DOT));
    let x = (width - text_width(Font::Music, SMALL, &length)) / 2.0;
    let mut group = Group::new(Kind::Hole)
        .with(Shape::Edge { corners, thickness: 0.14 }, Ink::Black)
        .with(Shape::signs(length, Point::new(x, -0.8), SMALL), Ink::Grey);
    group.label = Some(format!("a {} to be chosen", sign.length));
    group
}

/// A sign with its left edge at zero, a note with its stem as if it stood alone. Nothing for what is not
/// written yet.
pub(super) fn alone(entry: &Entry, clef: Clef) -> Option<Group> {
    match entry.sign.sound {
        Sound::Note(pitch) => {
            let value = entry.sign.length.value;
            let stem = Stem::alone(staff::place(clef, pitch), value);
            let stem = Stem { is_flagged: entry.beam.is_none(), ..stem };
            Some(note(entry, pitch, clef, entry.has_stem().then_some(stem)))
        }
        Sound::Rest => Some(rest(&entry.sign)),
        Sound::Hole | Sound::Held => Some(hole(&entry.sign)),
        Sound::Blank => None,
    }
}

/// Whether it is a rest that fills a bar of a length, which stands in its middle.
pub(super) fn fills_bar(entry: &Entry, bar: Duration) -> bool {
    entry.sign.sound == Sound::Rest && entry.sign.length.duration() == bar
}

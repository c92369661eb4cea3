//! What leads into a system on both staves: clef, key and, at the beginning, meter. Knows no notes.

use bicinium_analysis::score::{Pair, VoiceId};
use bicinium_theory::Meter;

use super::content::Music;
use super::display::{Group, Ink, Kind, STAFF, Shape, text_width};
use super::font::Font;
use super::geometry::{Point, Rect};
use super::staff;
use super::symbol;

/// Distance of the clef from the beginning of the staff.
const BEFORE: f64 = 0.9;
/// Distance of clef, key and meter.
const BETWEEN: f64 = 0.8;

/// What leads into a system, each staff measured from its own top line.
#[derive(Debug)]
pub(super) struct Lead {
    /// The signs.
    pub groups: Pair<Vec<Group>>,
    /// Where it ends.
    pub right: f64,
}

/// What leads into a system that begins at an x.
pub(super) fn lead(music: &Music<'_>, left: f64, is_first: bool) -> Lead {
    let mut lead = Lead { groups: Pair::default(), right: left + BEFORE };
    lead.put(|voice, x| staff::clef(music.clefs[voice], x));
    lead.put(|voice, x| staff::key(music.clefs[voice], music.setting.key, x));
    if is_first {
        lead.put(|_, x| meter(music.setting.meter, x));
    }
    lead
}

impl Lead {
    /// Adds a sign on both staves, the two beginning at the same x.
    fn put(&mut self, sign: impl Fn(VoiceId, f64) -> Group) {
        let x = self.right;
        let mut right = None;
        for voice in VoiceId::BOTH {
            let group = sign(voice, x);
            let edge = group.bounds().map(|bounds| bounds.right + BETWEEN);
            right = edge.into_iter().chain(right).reduce(f64::max);
            if edge.is_some() {
                self.groups[voice].push(group);
            }
        }
        self.right = right.unwrap_or(x);
    }
}

fn meter(meter: Meter, x: f64) -> Group {
    let rows = [meter.beats, meter.unit].map(symbol::time_digits);
    let widths = rows.each_ref().map(|row| text_width(Font::Music, STAFF, row));
    let widest = widths[0].max(widths[1]);
    let row = |y: f64, row: &str, width: f64| {
        Shape::signs(row, Point::new(x + (widest - width) / 2.0, y), STAFF)
    };
    let mut group = Group::new(Kind::Meter)
        .with(row(1.0, &rows[0], widths[0]), Ink::Black)
        .with(row(3.0, &rows[1], widths[1]), Ink::Black);
    group.label = Some(meter.to_string());
    group
}

/// How wide the lead of a system is.
pub(super) fn width(music: &Music<'_>, is_first: bool) -> f64 {
    lead(music, 0.0, is_first).right
}

/// The line that joins the staves at the left, and the bracket before it.
pub(super) fn bracket(left: f64, top: f64, bottom: f64) -> Group {
    let (thin, thick) = (symbol::THIN_BARLINE, symbol::THICK_BARLINE);
    let x = left - 1.1;
    let (over, under) = (top - 0.25, bottom + 0.25);
    Group::new(Kind::Barline)
        .with(Shape::Bar(Rect::new(left - thin, top, left, bottom)), Ink::Black)
        .with(Shape::Bar(Rect::new(x, over, x + thick, under)), Ink::Black)
        .with(Shape::sign(symbol::BRACKET_TOP, Point::new(x, over)), Ink::Black)
        .with(Shape::sign(symbol::BRACKET_BOTTOM, Point::new(x, under)), Ink::Black)
}

/// The barline that ends at an x, through both staves; the last one is thick.
pub(super) fn barline(right: f64, top: f64, bottom: f64, is_last: bool) -> Group {
    let bar =
        |right: f64, thickness: f64| Shape::Bar(Rect::new(right - thickness, top, right, bottom));
    let group = Group::new(Kind::Barline);
    if !is_last {
        return group.with(bar(right, symbol::THIN_BARLINE), Ink::Black);
    }
    let thin = right - symbol::THICK_BARLINE - 0.4;
    group
        .with(bar(right, symbol::THICK_BARLINE), Ink::Black)
        .with(bar(thin, symbol::THIN_BARLINE), Ink::Black)
}

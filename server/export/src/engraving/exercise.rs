//! An exercise as blocks that are set under each other: its heading, its systems, and what its marks
//! stand for. Knows nothing of pages.

use bicinium_analysis::score::{Score, VoiceId};

use super::breaking::{self, Widths};
use super::content::Music;
use super::display::{Group, Ink};
use super::font::Font;
use super::geometry::{Point, Rect};
use super::heading;
use super::lead;
use super::paging::{self, Block};
use super::remarks;
use super::spacing;
use super::staff;
use super::system::{self, Frame};
use super::words::{Align, Lettering};
use super::{Paper, Remarks, Style};
use crate::extra::Extra;
use crate::piece::{Piece, capitalized};

const NAME: Lettering = Lettering { font: Font::Roman, size: 2.0, ink: Ink::Black };
const ROLE: Lettering = Lettering { font: Font::Italic, size: 1.7, ink: Ink::Grey };
/// Room for the bracket.
const BRACKET: f64 = 1.8;
/// How wide a heading is at least on a strip that may be as short as its music.
const HEADING: f64 = 40.0;
/// Distance of the first system from the heading.
const UNDER_HEADING: f64 = 2.0;
/// Distance of systems.
const SYSTEMS_APART: f64 = 3.6;

/// The blocks of an exercise, in order.
pub(super) fn blocks(piece: &Piece<'_>, style: &Style) -> Vec<Block> {
    let (left, right) = (style.paper.margin(), style.paper.width() - style.paper.margin());
    let systems = systems(piece, style, left, right);
    let reach = match style.paper {
        Paper::Snug(_) => paging::reach(systems.iter().flat_map(|it| &it.groups))
            .clamp(left + HEADING.min(right - left), right),
        Paper::Strip(_) | Paper::A4 | Paper::Letter => right,
    };
    let mut blocks = vec![heading::block(piece, left, reach)];
    blocks.extend(systems);
    if style.extras.contains(&Extra::Findings) && style.remarks == Remarks::Below {
        blocks.extend(remarks::blocks(piece, left, right));
    }
    blocks
}

fn systems(piece: &Piece<'_>, style: &Style, left: f64, right: f64) -> Vec<Block> {
    let music = Music::of(piece, style);
    let rooms: Vec<_> = music.bars.iter().map(|bar| spacing::room(&music, bar)).collect();
    let names = names(&piece.exercise.score);
    let first = left + names_width(&names) + BRACKET;
    let others = left + BRACKET;
    let lead = |is_first| lead::width(&music, is_first);
    // A bar that is too full for a system is given all the room it needs; then all of it is made smaller.
    let needed = rooms.iter().enumerate().map(|(index, room)| match index {
        0 => first + lead(true) + room.least(),
        _ => others + lead(false) + room.least(),
    });
    let paper = right;
    let right = needed.fold(paper, f64::max);
    let scale = (paper - left) / (right - left);
    let width = |from: f64, is_first| right - from - lead(is_first);
    let widths = Widths { first: width(first, true), others: width(others, false) };
    let systems = breaking::systems(&rooms, widths);
    let block = |bars: std::ops::Range<usize>| {
        let is_first = bars.start == 0;
        let frame = Frame { left: if is_first { first } else { others }, right };
        let mut groups = system::engrave(&music, &rooms, bars, frame);
        if is_first {
            let labels = labels(&names, first - BRACKET, &groups);
            groups.extend(labels);
        }
        if scale < 1.0 {
            for group in &mut groups {
                group.scale(left, scale);
            }
        }
        Block::new(groups, if is_first { UNDER_HEADING } else { SYSTEMS_APART })
    };
    systems.into_iter().map(block).collect()
}

/// The name of each voice, and what it is.
fn names(score: &Score) -> [(String, &'static str); 2] {
    VoiceId::BOTH.map(|voice| {
        let name = capitalized(score.setting.registers[voice].name());
        let role = if score.setting.cantus == Some(voice) { "cantus" } else { "" };
        (name, role)
    })
}

fn names_width(names: &[(String, &'static str)]) -> f64 {
    let width = |(name, role): &(String, &str)| NAME.width(name).max(ROLE.width(role));
    names.iter().map(width).fold(0.0, f64::max) + 0.8
}

/// The names before the staves, which are found by their lines.
fn labels(names: &[(String, &str)], right: f64, groups: &[Group]) -> Vec<Group> {
    let staves = groups.iter().filter(|group| group.kind == super::display::Kind::Staff);
    let middles = staves.filter_map(Group::bounds).map(|it: Rect| f64::midpoint(it.top, it.bottom));
    let label = |(middle, (name, role)): (f64, &(String, &str))| {
        let baseline = middle + if role.is_empty() { 0.6 } else { 0.0 };
        let mut group = NAME.group(name, Point::new(right - 0.4, baseline), Align::Right);
        if !role.is_empty() {
            let below = Point::new(right - 0.4, baseline + staff::HEIGHT / 2.0);
            group.shapes.extend(ROLE.shapes(role, below, Align::Right));
        }
        group
    };
    middles.zip(names).map(label).collect()
}

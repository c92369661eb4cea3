//! Sets blocks under each other and begins a new page where one is full. Knows boxes, no music.

use super::display::{Group, Ink, Page};
use super::font::Font;
use super::geometry::{Point, Rect};
use super::paper::Paper;
use super::words::{Align, Lettering};

/// What stays together on a page.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Block {
    /// What is in it.
    pub groups: Vec<Group>,
    /// Distance from the block before it.
    pub gap: f64,
    /// Whether the next block has to be on the same page.
    pub keeps_next: bool,
}

impl Block {
    /// A block that may be parted from the next.
    pub fn new(groups: Vec<Group>, gap: f64) -> Self {
        Self { groups, gap, keeps_next: false }
    }

    fn bounds(&self) -> Rect {
        let all = self.groups.iter().filter_map(Group::bounds).reduce(Rect::union);
        all.unwrap_or(Rect::new(0.0, 0.0, 0.0, 0.0))
    }
}

const NUMBER: Lettering = Lettering { font: Font::Roman, size: 2.0, ink: Ink::Grey };

/// The pages of several exercises, each of them a row of blocks. An exercise that fits on a page is not
/// broken.
pub(super) fn pages(exercises: Vec<Vec<Block>>, paper: Paper) -> Vec<Page> {
    let mut press = Press { paper, done: Vec::new(), groups: Vec::new(), y: paper.margin() };
    for blocks in exercises {
        let height = blocks.iter().map(|block| block.bounds().height() + block.gap).sum();
        if !press.has_room(height) && press.fits_on_one(height) {
            press.turn();
        }
        press.set(blocks);
    }
    press.turn();
    let mut pages = press.done;
    number(&mut pages, paper);
    pages
}

struct Press {
    paper: Paper,
    done: Vec<Page>,
    groups: Vec<Group>,
    y: f64,
}

impl Press {
    fn set(&mut self, blocks: Vec<Block>) {
        let heights: Vec<f64> = blocks.iter().map(|it| it.bounds().height() + it.gap).collect();
        for (index, block) in blocks.into_iter().enumerate() {
            let next = if block.keeps_next { heights.get(index + 1).copied() } else { None };
            if !self.has_room(heights[index] + next.unwrap_or(0.0)) {
                self.turn();
            }
            self.put(block);
        }
    }

    fn put(&mut self, block: Block) {
        let bounds = block.bounds();
        let gap = if self.groups.is_empty() { 0.0 } else { block.gap };
        let top = self.y + gap;
        for mut group in block.groups {
            group.shift(0.0, top - bounds.top);
            self.groups.push(group);
        }
        self.y = top + bounds.height();
    }

    fn has_room(&self, height: f64) -> bool {
        self.bottom().is_none_or(|bottom| self.y + height <= bottom)
    }

    fn fits_on_one(&self, height: f64) -> bool {
        self.bottom().is_none_or(|bottom| self.paper.margin() + height <= bottom)
    }

    /// The lowest that anything may reach.
    fn bottom(&self) -> Option<f64> {
        Some(self.paper.height()? - self.paper.margin())
    }

    /// Ends the page, unless nothing is on it.
    fn turn(&mut self) {
        if self.groups.is_empty() {
            return;
        }
        let height = self.paper.height().unwrap_or(self.y + self.paper.margin());
        let groups = std::mem::take(&mut self.groups);
        let width = match self.paper {
            Paper::Snug(_) => self.paper.width().min(reach(&groups) + self.paper.margin()),
            Paper::Strip(_) | Paper::A4 | Paper::Letter => self.paper.width(),
        };
        self.done.push(Page { width, height, groups });
        self.y = self.paper.margin();
    }
}

/// How far to the right anything stands.
pub(super) fn reach<'a>(groups: impl IntoIterator<Item = &'a Group>) -> f64 {
    groups.into_iter().filter_map(Group::bounds).map(|bounds| bounds.right).fold(0.0, f64::max)
}

/// Numbers the pages at their foot, if there are several.
fn number(pages: &mut [Page], paper: Paper) {
    let count = pages.len();
    for (number, page) in (1..).zip(pages.iter_mut()).filter(|_| count > 1) {
        let at = Point::new(page.width / 2.0, page.height - paper.margin() / 2.0);
        page.groups.push(NUMBER.group(&format!("{number} / {count}"), at, Align::Middle));
    }
}

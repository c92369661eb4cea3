//! PNG: a page as dots, by `tiny-skia`.

use std::fmt;

use tiny_skia::{FillRule, Paint, Path, PathBuilder, Pixmap, Stroke as Pen, Transform};

use super::path;
use crate::engraving::display::{Inked, Page};
use crate::engraving::font::Stroke;
use crate::engraving::geometry::Point;
use crate::engraving::paper::SPACE;

/// Why a page cannot become a PNG.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooLarge {
    /// How many dots it would be high.
    pub height: u32,
}

/// The most dots that a picture may be high, or wide.
const MOST: f64 = 30_000.0;
/// Millimetres in an inch.
const INCH: f64 = 25.4;

/// The page as a PNG file, with so many dots to an inch, on white ground.
pub fn png(page: &Page, dots_per_inch: u16) -> Result<Vec<u8>, TooLarge> {
    let scale = SPACE / INCH * f64::from(dots_per_inch);
    let [width, height] = [page.width, page.height].map(|it| (it * scale).ceil().max(1.0));
    let refused = TooLarge { height: whole(height) };
    if width.max(height) > MOST {
        return Err(refused);
    }
    let mut pixmap = Pixmap::new(whole(width), whole(height)).ok_or(refused)?;
    pixmap.fill(tiny_skia::Color::WHITE);
    let transform = Transform::from_scale(single(scale), single(scale));
    for inked in page.groups.iter().flat_map(|group| &group.shapes) {
        draw(&mut pixmap, inked, transform);
    }
    pixmap.encode_png().map_err(|_| refused)
}

fn draw(pixmap: &mut Pixmap, inked: &Inked, transform: Transform) {
    let mut paint = Paint::default();
    let [red, green, blue] = inked.ink.rgb();
    paint.set_color_rgba8(red, green, blue, 255);
    let outlines = path::signs(&inked.shape).map(|set| path::placed(&set));
    for outline in outlines.chain([path::outline(&inked.shape)]) {
        let Some(path) = traced(&outline) else { continue };
        match path::thickness(inked) {
            None => pixmap.fill_path(&path, &paint, FillRule::Winding, transform, None),
            Some(width) => {
                let pen = Pen { width: single(width), ..Pen::default() };
                pixmap.stroke_path(&path, &paint, &pen, transform, None);
            }
        }
    }
}

fn traced(strokes: &[Stroke]) -> Option<Path> {
    let mut path = PathBuilder::new();
    let at = |it: &Point| (single(it.x), single(it.y));
    for stroke in strokes {
        match stroke {
            Stroke::Move(to) => path.move_to(at(to).0, at(to).1),
            Stroke::Line(to) => path.line_to(at(to).0, at(to).1),
            Stroke::Quad(by, to) => path.quad_to(at(by).0, at(by).1, at(to).0, at(to).1),
            Stroke::Cubic(first, second, to) => {
                let ((x1, y1), (x2, y2), (x, y)) = (at(first), at(second), at(to));
                path.cubic_to(x1, y1, x2, y2, x, y);
            }
            Stroke::Close => path.close(),
        }
    }
    path.finish()
}

#[expect(clippy::cast_possible_truncation, reason = "the library draws in single precision")]
fn single(value: f64) -> f32 {
    value as f32
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the cast saturates, and lengths are not negative"
)]
fn whole(value: f64) -> u32 {
    value as u32
}

impl fmt::Display for TooLarge {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "it would be {} dots high, more than most programs can show", self.height)
    }
}

impl std::error::Error for TooLarge {}

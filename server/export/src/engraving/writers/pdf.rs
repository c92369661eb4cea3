//! PDF, by `krilla`: letters stay letters that can be searched and copied; signs of music are outlines.

use krilla::Document;
use krilla::color::rgb;
use krilla::geom::{Path, PathBuilder, Point as At, Transform};
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla::paint::{Fill, Stroke as Pen};
use krilla::surface::Surface;
use krilla::text::{Font as Embedded, GlyphId, KrillaGlyph};

use super::path;
use crate::engraving::display::{Ink, Inked, Page, Shape};
use crate::engraving::font::{Font, Stroke};
use crate::engraving::geometry::Point;
use crate::engraving::paper::SPACE;

/// Points in a staff space.
const SCALE: f64 = SPACE / 25.4 * 72.0;

/// The pages as one document; none if the library cannot write it.
pub fn pdf(pages: &[Page], title: &str) -> Option<Vec<u8>> {
    let fonts = Fonts::new()?;
    let mut document = Document::new();
    let about = Metadata::new().title(title.to_owned()).creator("bicinium".to_owned());
    document.set_metadata(about.language("en".to_owned()));
    for page in pages {
        let (width, height) = (single(page.width * SCALE), single(page.height * SCALE));
        let mut sheet = document.start_page_with(PageSettings::from_wh(width, height)?);
        let mut surface = sheet.surface();
        surface.push_transform(&Transform::from_scale(single(SCALE), single(SCALE)));
        for inked in page.groups.iter().flat_map(|group| &group.shapes) {
            draw(&mut surface, inked, &fonts);
        }
        surface.pop();
        surface.finish();
        sheet.finish();
    }
    document.finish().ok()
}

/// The fonts that are embedded as far as they are used.
struct Fonts {
    roman: Embedded,
    italic: Embedded,
}

impl Fonts {
    fn new() -> Option<Self> {
        let load = |font: Font| Embedded::new(font.file().to_vec().into(), 0);
        Some(Self { roman: load(Font::Roman)?, italic: load(Font::Italic)? })
    }
}

fn draw(surface: &mut Surface<'_>, inked: &Inked, fonts: &Fonts) {
    let thickness = path::thickness(inked);
    surface.set_fill(thickness.is_none().then(|| fill(inked.ink)));
    surface.set_stroke(thickness.map(|width| Pen {
        paint: color(inked.ink).into(),
        width: single(width),
        ..Pen::default()
    }));
    match &inked.shape {
        Shape::Signs { font: Font::Roman, at, size, text } => {
            letters(surface, Font::Roman, &fonts.roman, (*at, *size), text);
        }
        Shape::Signs { font: Font::Italic, at, size, text } => {
            letters(surface, Font::Italic, &fonts.italic, (*at, *size), text);
        }
        shape => {
            let signs = path::signs(shape).map(|set| path::placed(&set));
            let outlines = signs.chain([path::outline(shape)]);
            for path in outlines.filter_map(|outline| traced(&outline)) {
                surface.draw_path(&path);
            }
        }
    }
}

fn letters(
    surface: &mut Surface<'_>,
    font: Font,
    embedded: &Embedded,
    (at, size): (Point, f64),
    text: &str,
) {
    let glyph = |(index, sign): (usize, char)| KrillaGlyph {
        glyph_id: GlyphId::new(font.glyph(sign)),
        text_range: index..index + sign.len_utf8(),
        x_advance: single(font.advance(sign)),
        x_offset: 0.0,
        y_offset: 0.0,
        y_advance: 0.0,
        location: None,
    };
    let glyphs: Vec<_> = text.char_indices().map(glyph).collect();
    let start = At::from_xy(single(at.x), single(at.y));
    surface.draw_glyphs(start, &glyphs, embedded.clone(), text, single(size), false);
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

fn color(ink: Ink) -> rgb::Color {
    let [red, green, blue] = ink.rgb();
    rgb::Color::new(red, green, blue)
}

fn fill(ink: Ink) -> Fill {
    Fill { paint: color(ink).into(), ..Fill::default() }
}

#[expect(clippy::cast_possible_truncation, reason = "the library draws in single precision")]
fn single(value: f64) -> f32 {
    value as f32
}

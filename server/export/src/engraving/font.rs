//! The fonts: outlines and widths of their signs, taken from the font files themselves. Knows neither
//! what a sign means nor where it goes.

use std::collections::HashMap;
use std::sync::LazyLock;

use ttf_parser::{Face, GlyphId, OutlineBuilder};

use super::geometry::{Point, Rect};
use super::symbol;

/// A font that is drawn with. Their licences lie beside the files, in `assets/fonts/`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Font {
    /// Signs of music; its em is the height of a staff.
    Music,
    /// Upright letters.
    Roman,
    /// Slanted letters.
    Italic,
}

/// A piece of an outline, in ems with y downwards.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stroke {
    /// A new contour begins here.
    Move(Point),
    /// A straight line to here.
    Line(Point),
    /// A quadratic curve by a control point to the last one.
    Quad(Point, Point),
    /// A cubic curve by two control points to the last one.
    Cubic(Point, Point, Point),
    /// The contour is closed.
    Close,
}

/// A font, read, with the measures of the signs that are in common use.
struct Read {
    face: Face<'static>,
    /// The signs up to U+00FF, by their numbers.
    latin: Vec<Measures>,
    known: HashMap<char, Measures>,
}

/// What can be asked about a sign again and again.
#[derive(Clone, Copy, Debug)]
struct Measures {
    glyph: GlyphId,
    advance: f64,
    bounds: Option<Rect>,
}

static MUSIC: LazyLock<Option<Read>> = LazyLock::new(|| Font::Music.read());
static ROMAN: LazyLock<Option<Read>> = LazyLock::new(|| Font::Roman.read());
static ITALIC: LazyLock<Option<Read>> = LazyLock::new(|| Font::Italic.read());

impl Font {
    /// The font file.
    pub fn file(self) -> &'static [u8] {
        match self {
            Self::Music => include_bytes!("../../assets/fonts/Bravura.otf"),
            Self::Roman => include_bytes!("../../assets/fonts/LibertinusSerif-Regular.ttf"),
            Self::Italic => include_bytes!("../../assets/fonts/LibertinusSerif-Italic.ttf"),
        }
    }

    /// The number of the sign in the font; that of its replacement if the font lacks it.
    pub fn glyph(self, sign: char) -> u32 {
        self.measures(sign).map_or(0, |it| u32::from(it.glyph.0))
    }

    /// Whether the font has a sign.
    pub fn has(self, sign: char) -> bool {
        self.glyph(sign) != 0
    }

    /// How far the next sign stands from a sign, in ems.
    pub fn advance(self, sign: char) -> f64 {
        self.measures(sign).map_or(0.0, |it| it.advance)
    }

    /// The box of a sign around its origin, in ems; none if it leaves no ink.
    pub fn bounds(self, sign: char) -> Option<Rect> {
        self.measures(sign)?.bounds
    }

    /// The outline of a sign, in ems around its origin.
    pub fn outline(self, sign: char) -> Vec<Stroke> {
        let Some(read) = self.file_read() else { return Vec::new() };
        let mut pen = Pen { em: f64::from(read.face.units_per_em()), strokes: Vec::new() };
        read.face.outline_glyph(read.measures(sign).glyph, &mut pen);
        pen.strokes
    }

    fn measures(self, sign: char) -> Option<Measures> {
        self.file_read().map(|read| read.measures(sign))
    }

    fn file_read(self) -> Option<&'static Read> {
        match self {
            Self::Music => MUSIC.as_ref(),
            Self::Roman => ROMAN.as_ref(),
            Self::Italic => ITALIC.as_ref(),
        }
    }

    fn read(self) -> Option<Read> {
        let face = Face::parse(self.file(), 0).ok()?;
        let mut read = Read { face, latin: Vec::new(), known: HashMap::new() };
        match self {
            Self::Music => {
                let measured = |sign| (sign, read.measured(sign));
                read.known = symbol::ALL.chars().map(measured).collect();
            }
            Self::Roman | Self::Italic => {
                read.latin = ('\0'..='\u{ff}').map(|sign| read.measured(sign)).collect();
            }
        }
        Some(read)
    }
}

impl Read {
    fn measures(&self, sign: char) -> Measures {
        let latin = usize::try_from(u32::from(sign)).ok().and_then(|number| self.latin.get(number));
        let known = latin.or_else(|| self.known.get(&sign));
        known.copied().unwrap_or_else(|| self.measured(sign))
    }

    fn measured(&self, sign: char) -> Measures {
        let em = f64::from(self.face.units_per_em());
        let glyph = self.face.glyph_index(sign).unwrap_or(GlyphId(0));
        let advance = f64::from(self.face.glyph_hor_advance(glyph).unwrap_or(0)) / em;
        let bounds = self.face.glyph_bounding_box(glyph).map(|of| {
            let [left, right] = [of.x_min, of.x_max].map(|it| f64::from(it) / em);
            let [top, bottom] = [of.y_max, of.y_min].map(|it| -f64::from(it) / em);
            Rect { left, top, right, bottom }
        });
        Measures { glyph, advance, bounds }
    }
}

/// Notes an outline down.
struct Pen {
    em: f64,
    strokes: Vec<Stroke>,
}

impl Pen {
    fn at(&self, x: f32, y: f32) -> Point {
        Point::new(f64::from(x) / self.em, -f64::from(y) / self.em)
    }
}

impl OutlineBuilder for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        self.strokes.push(Stroke::Move(self.at(x, y)));
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.strokes.push(Stroke::Line(self.at(x, y)));
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.strokes.push(Stroke::Quad(self.at(x1, y1), self.at(x, y)));
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.strokes.push(Stroke::Cubic(self.at(x1, y1), self.at(x2, y2), self.at(x, y)));
    }

    fn close(&mut self) {
        self.strokes.push(Stroke::Close);
    }
}

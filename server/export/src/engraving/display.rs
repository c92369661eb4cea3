//! The display list: what is on a page, as plain data in the order in which it is drawn. Every group
//! says what it is and has a box; notes have an id. Knows no format.

use super::font::Font;
use super::geometry::{Point, Rect};

/// A page, or one endless strip.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// Its width, in staff spaces.
    pub width: f64,
    /// Its height, in staff spaces.
    pub height: f64,
    /// What is on it.
    pub groups: Vec<Group>,
}

/// Things that belong together.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// What they are.
    pub kind: Kind,
    /// The name by which they can be found again.
    pub id: Option<String>,
    /// What they are in words, for those who listen to the page.
    pub label: Option<String>,
    /// The things.
    pub shapes: Vec<Inked>,
}

/// What a group is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Kind {
    /// The lines of a staff.
    Staff,
    /// A barline, the bracket, and the line that joins the staves.
    Barline,
    /// A clef.
    Clef,
    /// A key signature.
    Key,
    /// A time signature.
    Meter,
    /// A note with all that belongs to it alone.
    Note,
    /// A rest.
    Rest,
    /// A note not yet chosen.
    Hole,
    /// The beams of a group of notes.
    Beam,
    /// A tie.
    Tie,
    /// The interval between the voices.
    Figure,
    /// A Roman numeral, and the line that prolongs it.
    Numeral,
    /// The mark of a finding.
    Mark,
    /// Words: title, author, names of voices, numbers of bars and pages.
    Words,
    /// What a mark stands for, in words.
    Remark,
}

/// A shape and its colour.
#[derive(Clone, Debug, PartialEq)]
pub struct Inked {
    /// The shape.
    pub shape: Shape,
    /// The colour.
    pub ink: Ink,
}

/// The colours; a page can be read without them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Ink {
    /// Notes and letters.
    Black,
    /// What stands back: lines of a staff, names, holes.
    Grey,
    /// The ground.
    White,
    /// Faults.
    Fault,
    /// Cautions.
    Caution,
    /// Advice.
    Advice,
}

/// Something drawn.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// Signs of a font in a row, from the origin of the first.
    Signs {
        /// The font.
        font: Font,
        /// Where the first has its origin.
        at: Point,
        /// The em, in staff spaces.
        size: f64,
        /// The signs.
        text: String,
    },
    /// A filled box.
    Bar(Rect),
    /// A filled area with straight edges.
    Area(Vec<Point>),
    /// The edge of such an area.
    Edge {
        /// Its corners.
        corners: Vec<Point>,
        /// How thick it is.
        thickness: f64,
    },
    /// A bow between two points, thick in the middle; it rises by `rise`, or sinks if that is
    /// positive.
    Bow {
        /// Where it begins.
        from: Point,
        /// Where it ends.
        to: Point,
        /// How far its middle lies below its ends.
        rise: f64,
    },
}

impl Ink {
    /// Red, green and blue, 0 to 255.
    pub fn rgb(self) -> [u8; 3] {
        match self {
            Self::Black => [0x10, 0x10, 0x10],
            Self::Grey => [0x6a, 0x6a, 0x6a],
            Self::White => [0xff, 0xff, 0xff],
            Self::Fault => [0xb0, 0x12, 0x2b],
            Self::Caution => [0x9a, 0x5a, 0x00],
            Self::Advice => [0x1f, 0x5f, 0x9e],
        }
    }

    /// A word for it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Black => "black",
            Self::Grey => "grey",
            Self::White => "white",
            Self::Fault => "fault",
            Self::Caution => "caution",
            Self::Advice => "advice",
        }
    }
}

impl Kind {
    /// A word for it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Staff => "staff",
            Self::Barline => "barline",
            Self::Clef => "clef",
            Self::Key => "key",
            Self::Meter => "meter",
            Self::Note => "note",
            Self::Rest => "rest",
            Self::Hole => "hole",
            Self::Beam => "beam",
            Self::Tie => "tie",
            Self::Figure => "figure",
            Self::Numeral => "numeral",
            Self::Mark => "mark",
            Self::Words => "words",
            Self::Remark => "remark",
        }
    }
}

impl Group {
    /// An empty group.
    pub fn new(kind: Kind) -> Self {
        Self { kind, id: None, label: None, shapes: Vec::new() }
    }

    /// Adds a shape.
    #[must_use]
    pub fn with(mut self, shape: Shape, ink: Ink) -> Self {
        self.shapes.push(Inked { shape, ink });
        self
    }

    /// Its box; none if it is empty.
    pub fn bounds(&self) -> Option<Rect> {
        self.shapes.iter().filter_map(|inked| inked.shape.bounds()).reduce(Rect::union)
    }

    /// The letters in it, in the order in which they are drawn.
    pub fn text(&self) -> String {
        let letters = self.shapes.iter().filter_map(|inked| match &inked.shape {
            Shape::Signs { font: Font::Roman | Font::Italic, text, .. } => Some(text.as_str()),
            _ => None,
        });
        letters.collect::<Vec<_>>().join(" ")
    }

    /// Moves all of it.
    pub fn shift(&mut self, dx: f64, dy: f64) {
        for inked in &mut self.shapes {
            inked.shape.shift(dx, dy);
        }
    }

    /// Makes all of it smaller or larger, away from the point of the height zero at `x`.
    pub fn scale(&mut self, x: f64, factor: f64) {
        for inked in &mut self.shapes {
            inked.shape.shift(-x, 0.0);
            inked.shape.scale(factor);
            inked.shape.shift(x, 0.0);
        }
    }
}

impl Shape {
    /// One sign of the music font, in the size of the staff.
    pub fn sign(sign: char, at: Point) -> Self {
        Self::signs(sign, at, STAFF)
    }

    /// Signs of the music font, in a size.
    pub fn signs(text: impl Into<String>, at: Point, size: f64) -> Self {
        Self::Signs { font: Font::Music, at, size, text: text.into() }
    }

    /// Its box; none if it leaves no ink.
    pub fn bounds(&self) -> Option<Rect> {
        match self {
            Self::Signs { font, at, size, text } => row(*font, *at, *size, text),
            Self::Bar(rect) => Some(*rect),
            Self::Area(corners) => Rect::around(corners.iter().copied()),
            Self::Edge { corners, thickness } => {
                Some(Rect::around(corners.iter().copied())?.grown(thickness / 2.0))
            }
            // Its middle reaches three quarters of the way to its control points.
            Self::Bow { from, to, rise } => {
                Rect::around([*from, *to, from.moved(0.0, rise * 0.75)])
            }
        }
    }

    /// Moves it.
    pub fn shift(&mut self, dx: f64, dy: f64) {
        match self {
            Self::Signs { at, .. } => *at = at.moved(dx, dy),
            Self::Bar(rect) => *rect = rect.moved(dx, dy),
            Self::Area(corners) | Self::Edge { corners, .. } => {
                for corner in corners {
                    *corner = corner.moved(dx, dy);
                }
            }
            Self::Bow { from, to, .. } => {
                *from = from.moved(dx, dy);
                *to = to.moved(dx, dy);
            }
        }
    }
}

impl Shape {
    /// Makes it smaller or larger, away from the origin.
    fn scale(&mut self, factor: f64) {
        let scale = |point: &mut Point| *point = Point::new(point.x * factor, point.y * factor);
        match self {
            Self::Signs { at, size, .. } => {
                scale(at);
                *size *= factor;
            }
            Self::Bar(rect) => {
                let [left, top] = [rect.left, rect.top].map(|it| it * factor);
                *rect = Rect::new(left, top, rect.right * factor, rect.bottom * factor);
            }
            Self::Area(corners) => corners.iter_mut().for_each(scale),
            Self::Edge { corners, thickness } => {
                corners.iter_mut().for_each(scale);
                *thickness *= factor;
            }
            Self::Bow { from, to, rise } => {
                scale(from);
                scale(to);
                *rise *= factor;
            }
        }
    }
}

/// The em of the music font when it is as large as the staff, in staff spaces.
pub const STAFF: f64 = 4.0;

fn row(font: Font, at: Point, size: f64, text: &str) -> Option<Rect> {
    let mut x = at.x;
    let boxes = text.chars().filter_map(|sign| {
        let origin = x;
        x += font.advance(sign) * size;
        let of = font.bounds(sign)?;
        let [left, right] = [of.left, of.right].map(|it| origin + it * size);
        Some(Rect::new(left, at.y + of.top * size, right, at.y + of.bottom * size))
    });
    boxes.reduce(Rect::union)
}

/// How wide a text is, in staff spaces.
pub fn text_width(font: Font, size: f64, text: &str) -> f64 {
    text.chars().map(|sign| font.advance(sign) * size).sum()
}

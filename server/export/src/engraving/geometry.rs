//! Points and boxes. All lengths of the engraving are in staff spaces, the distance of two lines of
//! a staff, and y grows downwards. Knows no music.

/// A point on the page.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Point {
    /// Staff spaces from the left.
    pub x: f64,
    /// Staff spaces from the top.
    pub y: f64,
}

/// A box on the page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rect {
    /// Its left edge.
    pub left: f64,
    /// Its upper edge.
    pub top: f64,
    /// Its right edge.
    pub right: f64,
    /// Its lower edge.
    pub bottom: f64,
}

impl Point {
    /// A point.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The point so far to the right and down.
    #[must_use]
    pub fn moved(self, dx: f64, dy: f64) -> Self {
        Self::new(self.x + dx, self.y + dy)
    }
}

impl Rect {
    /// A box by its edges.
    pub const fn new(left: f64, top: f64, right: f64, bottom: f64) -> Self {
        Self { left, top, right, bottom }
    }

    /// The smallest box that holds all points; none if there are none.
    pub fn around(points: impl IntoIterator<Item = Point>) -> Option<Self> {
        let boxes = points.into_iter().map(|it| Self::new(it.x, it.y, it.x, it.y));
        boxes.reduce(Self::union)
    }

    /// The smallest box that holds both.
    #[must_use]
    pub fn union(self, other: Self) -> Self {
        Self {
            left: self.left.min(other.left),
            top: self.top.min(other.top),
            right: self.right.max(other.right),
            bottom: self.bottom.max(other.bottom),
        }
    }

    /// The box so far to the right and down.
    #[must_use]
    pub fn moved(self, dx: f64, dy: f64) -> Self {
        Self::new(self.left + dx, self.top + dy, self.right + dx, self.bottom + dy)
    }

    /// The box with so much around it.
    #[must_use]
    pub fn grown(self, by: f64) -> Self {
        Self::new(self.left - by, self.top - by, self.right + by, self.bottom + by)
    }

    /// From left to right.
    pub fn width(self) -> f64 {
        self.right - self.left
    }

    /// From top to bottom.
    pub fn height(self) -> f64 {
        self.bottom - self.top
    }

    /// Whether the two have an area in common.
    pub fn overlaps(self, other: Self) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }
}

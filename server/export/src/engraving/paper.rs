//! What is engraved on: sheets of paper, or a strip that is as long as the music. Knows sizes only.

/// The paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// 210 by 297 mm (ISO 216).
    #[default]
    A4,
    /// 8.5 by 11 inches.
    Letter,
    /// One strip of a width in millimetres, 60 to 1000.
    Strip(u16),
    /// The same, but narrower if the music is short.
    Snug(u16),
}

/// The distance of two lines of a staff, in millimetres.
pub const SPACE: f64 = 1.7;
/// The margins of a sheet, in millimetres.
const MARGIN: f64 = 17.0;
/// The margins of a strip, in millimetres.
const NARROW: f64 = 5.0;

impl Paper {
    /// The width, in staff spaces.
    pub fn width(self) -> f64 {
        let width = match self {
            Self::A4 => 210.0,
            Self::Letter => 215.9,
            Self::Strip(width) | Self::Snug(width) => f64::from(width.clamp(60, 1000)),
        };
        width / SPACE
    }

    /// The height, in staff spaces; none of a strip.
    pub fn height(self) -> Option<f64> {
        match self {
            Self::A4 => Some(297.0 / SPACE),
            Self::Letter => Some(279.4 / SPACE),
            Self::Strip(_) | Self::Snug(_) => None,
        }
    }

    /// The margin on every side, in staff spaces.
    pub fn margin(self) -> f64 {
        let margin = if self.height().is_none() { NARROW } else { MARGIN };
        margin / SPACE
    }
}

//! How two voices move against each other from one moment to the next. Knows no rule about it.

use crate::{Direction, Interval, Pitch};

/// The motion of two voices.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Motion {
    /// The voices go opposite ways.
    Contrary,
    /// One voice stays, the other moves.
    Oblique,
    /// Both go the same way by different intervals.
    Similar,
    /// Both go the same way by the same number of steps, so that the interval keeps its number.
    Parallel,
    /// Neither voice moves.
    Static,
}

impl Motion {
    /// The motion of two voices, each given as its first and its second pitch.
    pub fn between(upper: (Pitch, Pitch), lower: (Pitch, Pitch)) -> Self {
        let upper = Interval::between(upper.0, upper.1);
        let lower = Interval::between(lower.0, lower.1);
        match (upper.direction(), lower.direction()) {
            (Direction::Level, Direction::Level) => Self::Static,
            (Direction::Level, _) | (_, Direction::Level) => Self::Oblique,
            (up, low) if up != low => Self::Contrary,
            _ if upper.steps() == lower.steps() => Self::Parallel,
            _ => Self::Similar,
        }
    }

    /// The name: "contrary", "oblique", "similar", "parallel", "static".
    pub fn name(self) -> &'static str {
        match self {
            Self::Contrary => "contrary",
            Self::Oblique => "oblique",
            Self::Similar => "similar",
            Self::Parallel => "parallel",
            Self::Static => "static",
        }
    }
}

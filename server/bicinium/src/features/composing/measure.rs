//! How hard a cantus is: how many ways there are to write a counterpoint to it without a fault, in a
//! species, above it or below.

use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use bicinium_analysis::Rulebook;
use bicinium_realizer::{Budget, Count, Extent, Realizer, Watch};
use bicinium_theory::Register;

use super::cantus::Cantus;
use super::{blank_row, exercise};

/// How many ways are looked for where they cannot all be counted.
const SOME: usize = 1000;

/// On which side of the cantus the counterpoint is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// The counterpoint is the upper voice.
    Above,
    /// The counterpoint is the lower voice.
    Below,
}

/// What is counted.
#[derive(Clone, Debug)]
pub struct Measure<'a> {
    /// The cantus.
    pub cantus: &'a Cantus,
    /// Who judges the counterpoint.
    pub rulebook: &'a Arc<Rulebook>,
    /// The species, 1 to 5.
    pub species: u8,
    /// Where the counterpoint is.
    pub side: Side,
}

impl Side {
    /// Both sides.
    pub const BOTH: [Self; 2] = [Self::Above, Self::Below];

    /// In one word.
    pub fn name(self) -> &'static str {
        match self {
            Self::Above => "above",
            Self::Below => "below",
        }
    }

    /// The voice of a choir that sings against another: its neighbour on this side, or one of its own
    /// kind at the edge.
    pub fn voice(self, cantus: Register) -> Register {
        use Register::{Alto, Baritone, Bass, Mezzo, Soprano, Tenor};
        match (self, cantus) {
            (Self::Above, Soprano | Mezzo | Alto) => Soprano,
            (Self::Above, Tenor) | (Self::Below, Soprano | Mezzo) => Alto,
            (Self::Above, Baritone | Bass) | (Self::Below, Alto) => Tenor,
            (Self::Below, Tenor | Baritone | Bass) => Bass,
        }
    }
}

impl Measure<'_> {
    /// How many ways there are. Where they cannot all be counted within the budget, some are looked
    /// for with as much again.
    pub fn count(&self, budget: Budget, progress: &dyn Fn(f64)) -> Count {
        let Some(exercise) = exercise(&self.text(), self.rulebook) else {
            return Count { number: 0u8.into(), extent: Extent::All };
        };
        let cancelled = AtomicBool::new(false);
        let watch = Watch::new(budget, &cancelled).with_progress(progress);
        let count = Realizer::new(&exercise, &watch).count();
        if count.extent == Extent::All {
            return count;
        }
        let watch = Watch::new(budget, &cancelled);
        let some = Realizer::new(&exercise, &watch).best(SOME).found.len();
        Count { number: count.number.max(some.into()), extent: Extent::AtLeast }
    }

    /// The exercise, still to be written.
    pub fn text(&self) -> String {
        let Cantus { key, voice, notes } = self.cantus;
        let counter = self.side.voice(*voice);
        let given: Vec<_> = notes.iter().map(ToString::to_string).collect();
        let given = format!("  {voice} cantus | {} |\n", given.join(" | "));
        let blank = blank_row(format!("{counter} counter"), notes.len());
        let rows = match self.side {
            Side::Above => format!("{blank}{given}"),
            Side::Below => format!("{given}{blank}"),
        };
        format!("key {key}\n\nexercise\n  species {}\n{rows}", self.species)
    }
}

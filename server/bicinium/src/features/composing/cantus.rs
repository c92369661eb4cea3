//! What cantus is wished for, and one that fits: of some that are drawn with equal chances from all
//! that are without fault, the one that meets the least resistance.

use std::sync::Arc;

use bicinium_analysis::Rulebook;
use bicinium_analysis::score::VoiceId;
use bicinium_realizer::{Extent, Realizer, Watch};
use bicinium_theory::{Key, Pitch, Register};

use super::{blank_row, exercise};

/// From how many that are drawn one is chosen: enough for a smooth line, few enough for a new one with
/// every seed.
const DRAWN: usize = 1000;

/// What cantus is wished for.
#[derive(Clone, Debug)]
pub struct Wish {
    /// Tonic and mode.
    pub key: Key,
    /// How many notes it has.
    pub length: usize,
    /// The voice that sings it.
    pub voice: Register,
    /// No note is lower, if anything is said.
    pub lowest: Option<Pitch>,
    /// No note is higher, if anything is said.
    pub highest: Option<Pitch>,
    /// Who judges it.
    pub rulebook: Arc<Rulebook>,
    /// Another number gives another cantus, the same number the same one.
    pub seed: u64,
}

/// A cantus.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cantus {
    /// Tonic and mode.
    pub key: Key,
    /// The voice that sings it.
    pub voice: Register,
    /// Its notes, one a bar.
    pub notes: Vec<Pitch>,
}

/// Why there is no cantus.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// There is none, by these rules.
    Closed(Vec<&'static str>),
    /// The search was ended before it could be drawn.
    Unfinished,
}

impl Wish {
    /// A cantus as it is wished for.
    pub fn compose(&self, watch: &Watch<'_>) -> Result<Cantus, Refusal> {
        let closed = || Refusal::Closed(Vec::new());
        let exercise = exercise(&self.blank(), &self.rulebook).ok_or_else(closed)?;
        let compass = self.compass().ok_or_else(closed)?;
        let realizer = Realizer::new(&exercise, watch).within(compass);
        let drawn = realizer.sample(DRAWN, self.seed);
        let smoothest = drawn.found.into_iter().min_by_key(|way| way.resistance);
        match (smoothest, drawn.extent) {
            (Some(way), _) => {
                let notes = way.notes(VoiceId::Upper).map(|note| note.pitch).collect();
                Ok(Cantus { key: self.key, voice: self.voice, notes })
            }
            (None, Extent::AtLeast) => Err(Refusal::Unfinished),
            (None, Extent::All) => {
                Err(Refusal::Closed(realizer.dead_end().map_or_else(Vec::new, |end| end.rules)))
            }
        }
    }

    /// The cantus, still to be written.
    fn blank(&self) -> String {
        let row = blank_row(format!("{} cantus", self.voice), self.length);
        format!("key {}\n\nexercise\n{row}", self.key)
    }

    /// From the lowest note to the highest; the judge sees to it that the voice can sing them.
    fn compass(&self) -> Option<std::ops::RangeInclusive<Pitch>> {
        let tonic = self.key.tonic;
        Some(self.lowest.or(tonic.at(0))?..=self.highest.or(tonic.at(9))?)
    }
}

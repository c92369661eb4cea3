//! How many counterpoints a cantus has, species by species. It must not know how they are told.

use bicinium_realizer::Count;

use super::budget;
use crate::cli::arguments::ComposeCantus;
use crate::cli::progress::Progress;
use crate::features::composing::{Cantus, Measure, Side, Wish};

/// The counts of one species.
#[derive(Debug)]
pub(super) struct Row {
    /// The species.
    pub(super) species: u8,
    /// How many ways there are on each side, in the order of [`Side::BOTH`].
    pub(super) counts: [Count; 2],
}

/// The counts of the species that are asked for.
pub(super) fn all(wish: &Wish, cantus: &Cantus, options: &ComposeCantus) -> Vec<Row> {
    let count = |species: u8, side: Side| {
        let progress = Progress::new(&format!("Species {species}, {}", side.name()));
        let measure = Measure { cantus, rulebook: &wish.rulebook, species, side };
        measure.count(budget(options), &|share| progress.show(share))
    };
    let row = |species: u8| Row { species, counts: Side::BOTH.map(|side| count(species, side)) };
    options.species.iter().copied().map(row).collect()
}

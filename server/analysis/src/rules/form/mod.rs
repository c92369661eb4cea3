//! Rules about an exercise as a whole: its rhythm, its opening, its close, and what is given.

mod breaking_of_ties;
mod cadence;
mod cadence_shape;
mod cantus_altered;
mod cantus_rhythm;
mod early_close;
mod eighths;
mod ending;
mod florid_lengths;
mod half_after_quarters;
mod harmony_row;
mod last_bar;
mod opening_after_rest;
mod opening_interval;
mod opening_rest;
mod rhythm_repeated;
mod rhythm_run;
mod species_rhythm;
mod unequal_bars;

use super::{Entry, entry};

/// The rules of this group, in the order in which they are listed.
pub const RULES: &[Entry] = &[
    entry!(Form, "species-rhythm", species_rhythm::SpeciesRhythm),
    entry!(Form, "eighths", eighths::Eighths),
    entry!(Form, "florid-lengths", florid_lengths::FloridLengths),
    entry!(Form, "half-after-quarters", half_after_quarters::HalfAfterQuarters),
    entry!(Form, "rhythm-run", rhythm_run::RhythmRun),
    entry!(Form, "rhythm-repeated", rhythm_repeated::RhythmRepeated),
    entry!(Form, "opening-rest", opening_rest::OpeningRest),
    entry!(Form, "last-bar", last_bar::LastBar),
    entry!(Form, "opening-interval", opening_interval::OpeningInterval),
    entry!(Form, "opening-after-rest", opening_after_rest::OpeningAfterRest),
    entry!(Form, "ending", ending::Ending),
    entry!(Form, "cadence", cadence::Cadence),
    entry!(Form, "cadence-shape", cadence_shape::CadenceShape),
    entry!(Form, "breaking-of-ties", breaking_of_ties::BreakingOfTies),
    entry!(Form, "early-close", early_close::EarlyClose),
    entry!(Form, "harmony-row", harmony_row::HarmonyRow),
    entry!(Form, "cantus-altered", cantus_altered::CantusAltered),
    entry!(Form, "cantus-rhythm", cantus_rhythm::CantusRhythm),
    entry!(Form, "unequal-bars", unequal_bars::UnequalBars),
];

//! The reading: which harmony every bar stands for, how far it is prolonged, and what every note
//! does in it. Where a school implies no harmony, only what every note does. Found by searching
//! all ways of hearing the exercise for the one with the fewest and mildest faults.

mod cost;
mod figure;
mod hearing;
mod plan;
mod result;
mod search;
mod standing;
mod vocabulary;

pub use figure::{
    Ending, Entry, Failure, Figure, Figures, Foreign, Link, Offence, Outcome, Shape, StrongFigures,
    WeakFigures,
};
pub use hearing::{Hearing, HearingStep, Part};
pub use plan::{Costs, Implied, PerBar, Plan};
pub use result::{Alternative, Function, NoteFunction, Reading, Stretch};
pub use search::{Passage, best};
pub use vocabulary::{Harmony, HarmonyId, Vocabulary};

/// The sections of a rulebook that say how music is heard, each with the text of the file that
/// documents its switches.
pub(crate) const SECTIONS: [(&str, &str); 2] =
    [("figures", include_str!("figure.rs")), ("harmony", include_str!("plan.rs"))];

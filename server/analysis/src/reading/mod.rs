//! The reading: which harmony every bar stands for, how far it is prolonged, and what every note
//! does in it. Where a school implies no harmony, only what every note does. Found by searching
//! all ways of hearing the exercise for the one with the fewest and mildest faults.

mod account;
mod choices;
mod cost;
mod ear;
mod figure;
mod hearing;
mod lattice;
mod listener;
mod plan;
mod result;
mod search;
mod standing;
mod suspension;
mod vocabulary;

pub use account::Otherwise;
pub use choices::Choices;
pub use figure::{
    Ending, Entry, Failure, Figure, Figures, Link, Offence, Outcome, Pursuit, Shape, StrongFigures,
    WeakFigures,
};
pub use hearing::{Hearing, HearingStep, Part};
pub use listener::{Listened, Listener};
pub use plan::{Costs, Implied, PerBar, Plan};
pub use result::{Alternative, FigureAround, Function, NoteFunction, Reading, Stretch};
pub use search::{Passage, Search, Told};
pub use suspension::{Chain, SuspensionKind, sounds_above};
pub use vocabulary::{Harmony, HarmonyId, Vocabulary};

/// The text of the file that documents the switches of the figures.
pub(crate) const FIGURES: &str = include_str!("figure/admitted.rs");
/// The text of the file that documents the switches of the plan.
pub(crate) const PLAN: &str = include_str!("plan.rs");

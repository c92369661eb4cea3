//! The reading: which harmony every bar stands for, how far it is prolonged, and what every note
//! does in it. Where a school implies no harmony, only what every note does. Found by searching
//! all ways of hearing the exercise for the one with the fewest and mildest faults.

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

use crate::rulebook::{Refuse, refuse};

/// A section of a rulebook that says how music is heard.
pub(crate) struct Section {
    /// Its name.
    pub(crate) name: &'static str,
    /// The text of the file that documents its switches.
    pub(crate) source: &'static str,
    /// Says why a table of switches is refused, if it is, and where.
    pub(crate) refuse: Refuse,
}

/// The sections of a rulebook that say how music is heard.
pub(crate) const SECTIONS: [Section; 2] = [
    Section {
        name: "figures",
        source: include_str!("figure/admitted.rs"),
        refuse: refuse::<Figures>,
    },
    Section { name: "harmony", source: include_str!("plan.rs"), refuse: refuse::<Plan> },
];

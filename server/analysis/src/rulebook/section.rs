//! The sections of a rulebook beside its rules, each with the file that documents its switches.

use super::ranking::Ranking;
use super::trial::{Refuse, refuse};
use crate::reading::{FIGURES, Figures, PLAN, Plan};

/// A section of a rulebook.
pub(super) struct Section {
    /// Its name.
    pub(super) name: &'static str,
    /// The text of the file that documents its switches.
    pub(super) source: &'static str,
    /// Says why a table of switches is refused, if it is, and where.
    pub(super) refuse: Refuse,
}

/// All sections.
pub(super) const SECTIONS: [Section; 3] = [
    Section { name: "figures", source: FIGURES, refuse: refuse::<Figures> },
    Section { name: "harmony", source: PLAN, refuse: refuse::<Plan> },
    Section { name: "ranking", source: include_str!("ranking.rs"), refuse: refuse::<Ranking> },
];

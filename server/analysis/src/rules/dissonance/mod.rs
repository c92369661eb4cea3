//! Rules about dissonance and about notes foreign to the harmony. The reading follows every
//! figure and says what became of it; each rule here speaks for one kind of failure.

mod early_resolution;
mod foreign_to_harmony;
mod kinds;
mod ninth_from_octave;
mod perfect_suspensions;
mod six_four;
mod strong_dissonance;
mod struck_dissonance;
mod suspension;
mod suspension_chain;
mod suspension_kind;
mod telling;
mod weak_dissonance;

use super::{Entry, entry};

/// The rules of this group, in the order in which they are listed.
pub const RULES: &[Entry] = &[
    entry!(Dissonance, "struck-dissonance", struck_dissonance::StruckDissonance),
    entry!(Dissonance, "weak-dissonance", weak_dissonance::WeakDissonance),
    entry!(Dissonance, "strong-dissonance", strong_dissonance::StrongDissonance),
    entry!(Dissonance, "suspension", suspension::Suspension),
    entry!(Dissonance, "suspension-kind", suspension_kind::SuspensionKinds),
    entry!(Dissonance, "perfect-suspensions", perfect_suspensions::PerfectSuspensions),
    entry!(Dissonance, "suspension-chain", suspension_chain::SuspensionChain),
    entry!(Dissonance, "ninth-from-octave", ninth_from_octave::NinthFromOctave),
    entry!(Dissonance, "early-resolution", early_resolution::EarlyResolution),
    entry!(Dissonance, "six-four", six_four::SixFour),
    entry!(Dissonance, "foreign-to-harmony", foreign_to_harmony::ForeignToHarmony),
];

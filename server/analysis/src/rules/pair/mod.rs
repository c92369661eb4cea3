//! Rules about two voices moving.

mod afterbeat_perfects;
mod consecutive_perfects;
mod contrary_perfects;
mod converging_octave;
mod converging_octave_wide;
mod cross_relation;
mod crossing;
mod direct_perfects;
mod distance;
mod downbeat_perfects;
mod imperfect_run;
mod inner_unison;
mod leaps_together;
mod long_distance;
mod main_quarter_perfects;
mod major_thirds;
mod overlap;
mod run;
mod telling;
mod width;

use super::{Entry, entry};

/// The rules of this group, in the order in which they are listed.
pub const RULES: &[Entry] = &[
    entry!(Pair, "consecutive-perfects", consecutive_perfects::ConsecutivePerfects),
    entry!(Pair, "contrary-perfects", contrary_perfects::ContraryPerfects),
    entry!(Pair, "direct-perfects", direct_perfects::DirectPerfects),
    entry!(Pair, "downbeat-perfects", downbeat_perfects::DownbeatPerfects),
    entry!(Pair, "afterbeat-perfects", afterbeat_perfects::AfterbeatPerfects),
    entry!(Pair, "main-quarter-perfects", main_quarter_perfects::MainQuarterPerfects),
    entry!(Pair, "converging-octave", converging_octave::ConvergingOctave),
    entry!(Pair, "converging-octave-wide", converging_octave_wide::ConvergingOctaveWide),
    entry!(Pair, "imperfect-run", imperfect_run::ImperfectRun),
    entry!(Pair, "major-thirds", major_thirds::MajorThirds),
    entry!(Pair, "leaps-together", leaps_together::LeapsTogether),
    entry!(Pair, "crossing", crossing::Crossing),
    entry!(Pair, "overlap", overlap::Overlap),
    entry!(Pair, "distance", distance::Distance),
    entry!(Pair, "long-distance", long_distance::LongDistance),
    entry!(Pair, "inner-unison", inner_unison::InnerUnison),
    entry!(Pair, "cross-relation", cross_relation::CrossRelation),
];

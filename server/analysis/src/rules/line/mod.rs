//! Rules about one line by itself.

mod augmented_leap;
mod chromatic_step;
mod compass;
mod diminished_leap;
mod few_steps;
mod foreign_note;
mod framed_seventh;
mod framed_tritone;
mod high_point;
mod leap_recovery;
mod leaps_in_one_direction;
mod leaps_through_a_bar;
mod major_sixth_leap;
mod minor_sixth_leap;
mod monotony;
mod repeated_note;
mod shared_high_point;
mod span;
mod turn;
mod wide_leap;

use super::{Entry, entry};

/// The rules of this group, in the order in which they are listed.
pub const RULES: &[Entry] = &[
    entry!(Line, "minor-sixth-leap", minor_sixth_leap::MinorSixthLeap),
    entry!(Line, "major-sixth-leap", major_sixth_leap::MajorSixthLeap),
    entry!(Line, "wide-leap", wide_leap::WideLeap),
    entry!(Line, "augmented-leap", augmented_leap::AugmentedLeap),
    entry!(Line, "diminished-leap", diminished_leap::DiminishedLeap),
    entry!(Line, "chromatic-step", chromatic_step::ChromaticStep),
    entry!(Line, "foreign-note", foreign_note::ForeignNote),
    entry!(Line, "framed-tritone", framed_tritone::FramedTritone),
    entry!(Line, "framed-seventh", framed_seventh::FramedSeventh),
    entry!(Line, "leap-recovery", leap_recovery::LeapRecovery),
    entry!(Line, "leaps-in-one-direction", leaps_in_one_direction::LeapsInOneDirection),
    entry!(Line, "leaps-through-a-bar", leaps_through_a_bar::LeapsThroughABar),
    entry!(Line, "repeated-note", repeated_note::RepeatedNote),
    entry!(Line, "compass", compass::Compass),
    entry!(Line, "span", span::Span),
    entry!(Line, "high-point", high_point::HighPoint),
    entry!(Line, "shared-high-point", shared_high_point::SharedHighPoint),
    entry!(Line, "monotony", monotony::Monotony),
    entry!(Line, "few-steps", few_steps::FewSteps),
];

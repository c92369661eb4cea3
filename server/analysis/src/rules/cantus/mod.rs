//! Rules about a cantus that is written by itself. They are in force nowhere else: where a cantus is
//! given, it is nobody's to mend.

mod cantus_close;
mod cantus_frame;
mod cantus_length;
mod cantus_width;
mod leaps_in_a_row;
mod steps_only;

use super::{Entry, entry};

/// The rules of this group, in the order in which they are listed.
pub const RULES: &[Entry] = &[
    entry!(Cantus, "cantus-frame", cantus_frame::CantusFrame),
    entry!(Cantus, "cantus-close", cantus_close::CantusClose),
    entry!(Cantus, "cantus-length", cantus_length::CantusLength),
    entry!(Cantus, "cantus-width", cantus_width::CantusWidth),
    entry!(Cantus, "leaps-in-a-row", leaps_in_a_row::LeapsInARow),
    entry!(Cantus, "steps-only", steps_only::StepsOnly),
];

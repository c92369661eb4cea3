//! The words that rules about two voices share: how two simultaneities are told. Knows the notes,
//! not which rule speaks.

use bicinium_theory::{Interval, PerfectClass};

use crate::judge::Sounded;
use crate::rules::wording;
use crate::score::Setting;

/// "Consecutive fifths: A4 over D4, then C5 over F4 in bar 3".
pub(super) fn two_of_a_kind(setting: &Setting, from: Sounded, to: Sounded) -> String {
    let class = to.perfect().map_or("perfect consonances", plural);
    format!(
        "Consecutive {class}: {}, then {} in {}",
        pair(from),
        pair(to),
        wording::place(setting, to.onset)
    )
}

/// "fifths" or "octaves".
pub(super) fn plural(class: PerfectClass) -> &'static str {
    match class {
        PerfectClass::Fifth => "fifths",
        PerfectClass::Octave => "octaves",
    }
}

/// "A4 over D4", as they stand on the page.
pub(super) fn pair(sounded: Sounded) -> String {
    format!("{} over {}", sounded.notes.upper.pitch, sounded.notes.lower.pitch)
}

/// The size of an interval within the octave, 1 for unisons and octaves.
pub(super) fn simple_number(interval: Interval) -> u16 {
    (interval.number() - 1) % 7 + 1
}

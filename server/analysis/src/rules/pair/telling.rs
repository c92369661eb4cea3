//! The words that rules about two voices share: how two simultaneities are told. Knows the notes,
//! not which rule speaks.

use bicinium_theory::PerfectClass;

use crate::judge::Sounded;
use crate::rules::wording;
use crate::score::{Setting, VoiceId};

/// "A4 over D4, then C5 over F4 in bar 3".
pub(super) fn one_after_the_other(setting: &Setting, from: Sounded, to: Sounded) -> String {
    format!("{}, then {} in {}", pair(from), pair(to), wording::place(setting, to.onset))
}

/// "Fifths", "Octaves" or "Unisons": what two perfect consonances of one class are together.
pub(super) fn kind(from: Sounded, to: Sounded) -> &'static str {
    let are_unisons = from.interval().is_unison() && to.interval().is_unison();
    match to.perfect() {
        Some(PerfectClass::Fifth) => "Fifths",
        _ if are_unisons => "Unisons",
        _ => "Octaves",
    }
}

/// Whether the upper voice sounds below the lower one.
pub(super) fn is_crossed(sounded: &Sounded) -> bool {
    sounded.bass() == VoiceId::Upper
}

/// "A4 over D4", as they stand on the page.
pub(super) fn pair(sounded: Sounded) -> String {
    format!("{} over {}", sounded.notes.upper.pitch, sounded.notes.lower.pitch)
}

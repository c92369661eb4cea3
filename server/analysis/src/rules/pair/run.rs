//! Stretches of neighbouring simultaneities that are alike. Knows the notes, not what is asked of
//! them.

use crate::judge::{Sounded, Step};

/// The simultaneities up to the present one that are alike, the latest first. Moments at which
/// both voices only hold are passed over.
pub(super) fn alike(step: &Step<'_>, is_alike: impl Fn(&Sounded) -> bool) -> Vec<Sounded> {
    step.after.pair.recent().filter(Sounded::is_struck).take_while(is_alike).collect()
}

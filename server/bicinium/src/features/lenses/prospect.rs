//! What can still become of an exercise, in one line: in how many ways it can be filled.

use std::sync::atomic::AtomicBool;

use bicinium_analysis::score::{Event, VoiceId};
use bicinium_analysis::sheet::Judged;
use bicinium_analysis::{Exercise, Snapshot};
use bicinium_realizer::Extent;

use crate::features::realizing::prospect;
use crate::features::words::grouped;

/// What is said of an exercise in which something is open.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Outlook {
    /// What it says.
    pub title: String,
    /// Whether there is a way to fill it.
    pub can_be_filled: bool,
}

/// Whether there will be anything to say.
pub fn is_open(exercise: &Exercise) -> bool {
    let mut events = VoiceId::BOTH.iter().flat_map(|voice| &exercise.score.lines[*voice].events);
    events.any(Event::is_open)
}

/// What can become of an exercise, given by its number, from 1; nothing if nothing is open in it.
pub fn outlook(snapshot: &Snapshot, number: usize, cancelled: &AtomicBool) -> Option<Outlook> {
    let (_, block, exercise) = snapshot.exercises().find(|known| known.0 == number)?;
    if is_open(exercise) { of(&block.judged, cancelled) } else { None }
}

/// "1,204 realizations · fill in the best".
fn of(judged: &Judged, cancelled: &AtomicBool) -> Option<Outlook> {
    let prospect = prospect(judged, cancelled)?;
    let can_be_filled = !prospect.best.found.is_empty();
    let number = grouped(&prospect.count.number);
    let title = match (number.as_str(), prospect.count.extent) {
        ("0", Extent::All) => "no realization: it cannot be finished as it stands".to_owned(),
        ("1", Extent::All) => "1 realization · fill it in".to_owned(),
        (_, Extent::All) => format!("{number} realizations · fill in the best"),
        ("0" | "1", Extent::AtLeast) if can_be_filled => {
            "more realizations than can be counted here · fill in the best".to_owned()
        }
        ("0", Extent::AtLeast) => "too much is open to say what can become of it".to_owned(),
        (_, Extent::AtLeast) => format!("more than {number} realizations · fill in the best"),
    };
    Some(Outlook { title, can_be_filled })
}

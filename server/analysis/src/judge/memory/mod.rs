//! What can still be seen of the notes at a moment: the last notes of each line, the last
//! simultaneities, and a few counters. A memory is advanced moment by moment and forgets what no
//! rule can ask for. It knows no rules and no harmony. What is not written yet leaves a gap: the
//! memory starts afresh behind it, so that nothing is concluded across a hole.

mod cut;
mod line;
mod pair;

pub use line::{Extreme, LineMemory, LineState, Moves, Run};
pub use pair::{PairMemory, Sounded};

use super::moment::Moment;
use crate::score::{Pair, VoiceId};

/// What can still be seen of both voices.
#[derive(Clone, Debug, Default, PartialEq, Eq, Hash)]
pub struct Memory {
    /// The line of each voice.
    pub lines: Pair<LineMemory>,
    /// The voices together.
    pub pair: PairMemory,
}

impl Memory {
    /// The memory after one more moment.
    #[must_use]
    pub fn after(&self, now: &Moment) -> Self {
        let mut next = self.clone();
        for voice in VoiceId::BOTH {
            next.lines[voice].advance(now.strokes[voice]);
        }
        let sounded = Sounded::of(&next.lines, now.onset);
        next.pair.push(now.onset, sounded);
        next
    }
}

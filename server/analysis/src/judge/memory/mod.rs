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
        next.advance(now);
        next
    }

    /// Takes in one more moment.
    pub fn advance(&mut self, now: &Moment) {
        for voice in VoiceId::BOTH {
            self.lines[voice].advance(now.strokes[voice]);
        }
        let sounded = Sounded::of(&self.lines, now.onset);
        self.pair.push(now.onset, sounded);
    }

    /// The same with what is counted since the beginning counted anew, over all moments up to here.
    #[must_use]
    pub fn recounted(&self, moments: &[Moment]) -> Self {
        let mut memory = self.clone();
        for voice in VoiceId::BOTH {
            memory.lines[voice].recount(moments.iter().map(|moment| moment.strokes[voice]));
        }
        memory
    }

    /// Whether all that a rule may ask before the end is the same as in another memory, and so will be
    /// after the same moments. What is counted since the beginning is asked for at the end alone.
    pub fn goes_on_as(&self, other: &Self) -> bool {
        let is_line = |voice: &VoiceId| self.lines[*voice].goes_on_as(&other.lines[*voice]);
        self.pair == other.pair && VoiceId::BOTH.iter().all(is_line)
    }
}

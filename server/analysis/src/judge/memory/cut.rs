//! Forgetting what a sight does not reach. What is left answers every question that may still be
//! asked within that sight as the whole memory would.

use bicinium_theory::Duration;

use super::{LineMemory, Memory, Moves, PairMemory};
use crate::judge::sight::{Sight, Trace};
use crate::score::{Setting, VoiceId};

impl Memory {
    /// The memory as far as a sight reaches, when the next moment comes at `next`. The simultaneities
    /// at `places` are kept in any case.
    #[must_use]
    pub fn within(
        &self,
        sight: Sight,
        setting: &Setting,
        next: Duration,
        places: &[Duration],
    ) -> Self {
        if sight.sees_all() {
            return self.clone();
        }
        let window = self.window(sight, setting, next);
        let mut cut = self.clone();
        for voice in VoiceId::BOTH {
            cut.lines[voice].forget(sight, window.bars);
        }
        let sounding = setting.written().filter_map(|voice| cut.lines[voice].sounding());
        let onsets: Vec<_> = sounding.map(|note| note.onset).collect();
        let is_kept = |onset: Duration| places.contains(&onset) || onsets.contains(&onset);
        cut.pair.forget(sight, window, is_kept);
        cut
    }

    fn window(&self, sight: Sight, setting: &Setting, next: Duration) -> Window {
        let latest = self.pair.latest().unwrap_or(next);
        let back = u32::from(sight.bars.saturating_sub(1));
        let start = setting.bar_start(setting.bar_of(latest).saturating_sub(back));
        let reach = setting.bar_length() * u32::from(sight.perfects);
        let perfects = Duration::from_ticks(next.ticks().saturating_sub(reach.ticks()));
        Window { bars: (sight.bars > 0).then_some(start), perfects }
    }
}

/// From when on what is remembered.
#[derive(Clone, Copy)]
struct Window {
    /// All that sounds.
    bars: Option<Duration>,
    /// Perfect consonances.
    perfects: Duration,
}

impl LineMemory {
    fn forget(&mut self, sight: Sight, start: Option<Duration>) {
        let again = usize::try_from(self.equal_notes.saturating_sub(1)).unwrap_or(usize::MAX);
        let latest = again.saturating_add(usize::from(sight.notes));
        let from = self.notes.len().saturating_sub(latest);
        let run = self.run.filter(|_| sight.sees(Trace::RunNotes)).map(|run| run.from.onset);
        let is_inside = |end: Duration| start.is_some_and(|start| end > start);
        let mut index = 0;
        self.notes.retain(|note| {
            index += 1;
            let is_of_run = run.is_some_and(|run| note.onset >= run);
            index > from || is_of_run || is_inside(note.end())
        });
        self.forget_traces(sight);
    }

    fn forget_traces(&mut self, sight: Sight) {
        let sees_run = sight.sees(Trace::Run) || sight.sees(Trace::RunNotes);
        self.run = self.run.filter(|_| sees_run);
        if !sight.sees(Trace::Extremes) {
            (self.highest, self.lowest) = (None, None);
        }
        if !sight.sees(Trace::Moves) {
            self.moves = Moves { all: self.moves.all.min(1), ..Moves::default() };
        }
    }
}

impl PairMemory {
    fn forget(&mut self, sight: Sight, window: Window, is_kept: impl Fn(Duration) -> bool) {
        let mut latest = usize::from(sight.moments);
        let mut kept = Self::default();
        for (onset, sounded) in self.moments.iter().rev().copied() {
            let is_perfect = sounded.is_none_or(|sounded| sounded.perfect().is_some());
            let is_inside = window.bars.is_some_and(|start| onset >= start);
            if latest > 0
                || is_inside
                || is_kept(onset)
                || (sight.perfects > 0 && is_perfect && onset >= window.perfects)
            {
                kept.moments.push((onset, sounded));
            }
            latest -= usize::from(latest > 0 && sounded.is_none_or(|now| now.is_struck()));
        }
        kept.moments.reverse();
        *self = kept;
    }
}

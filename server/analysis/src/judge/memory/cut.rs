//! Forgetting what a sight does not reach. What is left answers every question that may still be
//! asked within that sight as the whole memory would.

use bicinium_theory::Duration;

use super::{Extreme, LineMemory, Memory, Moves, PairMemory, Sounded};
use crate::judge::moment::Heard;
use crate::judge::sight::{Perfects, Sight, Trace};
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
        let start = self.start(sight, setting, next);
        let mut cut = self.clone();
        for voice in VoiceId::BOTH {
            cut.lines[voice].forget(sight, start);
        }
        let sounding = setting.written().filter_map(|voice| cut.lines[voice].sounding());
        let onsets: Vec<_> = sounding.map(|note| note.onset).collect();
        let perfects = Window::new(sight.perfects, setting, next);
        cut.pair.forget(usize::from(sight.moments), |onset, sounded| {
            let is_perfect = sounded.is_none_or(|sounded| sounded.perfect().is_some());
            start.is_some_and(|start| onset >= start)
                || places.contains(&onset)
                || onsets.contains(&onset)
                || (is_perfect && perfects.shows(onset))
        });
        cut
    }

    /// From when on all is seen that sounds.
    fn start(&self, sight: Sight, setting: &Setting, next: Duration) -> Option<Duration> {
        let back = u32::from(sight.bars.checked_sub(1)?);
        let latest = self.pair.latest().unwrap_or(next);
        Some(setting.bar_start(setting.bar_of(latest).saturating_sub(back)))
    }
}

/// From when on perfect consonances are seen.
struct Window<'a> {
    setting: &'a Setting,
    on_beats: Option<Duration>,
    on_downbeats: Option<Duration>,
    before_barline: Option<Duration>,
}

impl<'a> Window<'a> {
    fn new(perfects: Perfects, setting: &'a Setting, next: Duration) -> Self {
        let bar = setting.bar_length();
        let is_barline = setting.within_bar(next) == Duration::ZERO;
        let barline = setting.bar_start(setting.bar_of(next) + u32::from(!is_barline));
        let back = |from: Duration, count: u8, length: Duration| {
            let reach = (length * u32::from(count)).ticks();
            (count > 0).then(|| Duration::from_ticks(from.ticks().saturating_sub(reach)))
        };
        Self {
            setting,
            on_beats: back(next, perfects.on_beats, bar),
            on_downbeats: back(barline, perfects.on_downbeats, bar),
            before_barline: back(barline, perfects.before_barlines, Duration::QUARTER),
        }
    }

    fn shows(&self, onset: Duration) -> bool {
        let within = self.setting.within_bar(onset);
        let is_beat = self.setting.meter.beat(within).1 == Duration::ZERO;
        let is_downbeat = within == Duration::ZERO;
        let is_since = |start: Option<Duration>| start.is_some_and(|start| onset >= start);
        (is_beat && is_since(self.on_beats))
            || (is_downbeat && is_since(self.on_downbeats))
            || is_since(self.before_barline)
    }
}

impl LineMemory {
    fn forget(&mut self, sight: Sight, start: Option<Duration>) {
        let length = self.notes.len();
        let first = length.saturating_sub(usize::try_from(self.equal_notes).unwrap_or(length));
        let turn = first.saturating_sub(1)..=first;
        let told_apart = if sight.sees(Trace::Turn) { sight.again } else { 0 };
        let latest = length.saturating_sub(usize::from(sight.notes.max(told_apart)));
        let run = self.run.filter(|_| sight.sees(Trace::RunNotes)).map(|run| run.from.onset);
        let mut index = 0..;
        self.notes.retain(|note| {
            let index = index.next().unwrap_or(length);
            index >= latest
                || (sight.sees(Trace::Turn) && turn.contains(&index))
                || run.is_some_and(|run| note.onset >= run)
                || start.is_some_and(|start| note.end() > start)
        });
        self.equal_notes = self.known_as_equal(sight);
        self.forget_traces(sight);
    }

    /// How many equal notes in a row are told apart.
    fn known_as_equal(&self, sight: Sight) -> u32 {
        let Some(last) = self.last().filter(|_| sight.sees(Trace::Turn)) else {
            return self.equal_notes.min(u32::from(sight.again));
        };
        let kept = self.notes.iter().rev().take_while(|note| note.pitch == last.pitch).count();
        self.equal_notes.min(u32::try_from(kept).unwrap_or(u32::MAX))
    }

    fn forget_traces(&mut self, sight: Sight) {
        let sees_run = sight.sees(Trace::Run) || sight.sees(Trace::RunNotes);
        self.run = self.run.filter(|_| sees_run);
        if !sight.sees(Trace::Extremes) {
            let seen = |extreme: Extreme| extreme.up_to(sight.heights);
            (self.highest, self.lowest) =
                (self.highest.and_then(seen), self.lowest.and_then(|low| seen(low)?.up_to(1)));
        }
        self.moves = Moves { all: self.moves.all.min(1), ..Moves::default() };
    }
}

impl Extreme {
    /// The pitch, and how often it comes up to so many times; nothing if that is not at all.
    fn up_to(self, times: u8) -> Option<Self> {
        let first = Heard { onset: Duration::ZERO, duration: Duration::ZERO, ..self.first };
        (times > 0).then_some(Self { first, times: self.times.min(times.into()) })
    }
}

impl PairMemory {
    /// Keeps the latest moments in which a note begins, and what else is wanted.
    fn forget(&mut self, mut latest: usize, keeps: impl Fn(Duration, Option<Sounded>) -> bool) {
        let mut kept = Self::default();
        for (onset, sounded) in self.moments.iter().rev().copied() {
            if latest > 0 || keeps(onset, sounded) {
                kept.moments.push((onset, sounded));
            }
            latest -= usize::from(latest > 0 && sounded.is_none_or(|now| now.is_struck()));
        }
        kept.moments.reverse();
        *self = kept;
    }
}

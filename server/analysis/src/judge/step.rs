//! A step of the judge: one moment, with what could be seen before it and what can be seen after.
//! Rules are functions of steps. Knows no rules and no text.

use bicinium_theory::{Duration, Interval, Motion};

use super::memory::{LineMemory, LineState, Memory, Sounded};
use super::moment::{Heard, Moment};
use crate::score::{Pair, Setting, VoiceId};

/// One moment as the rules see it.
#[derive(Clone, Copy, Debug)]
pub struct Step<'a> {
    /// What the exercise is set in.
    pub setting: &'a Setting,
    /// What could be seen before the moment.
    pub before: &'a Memory,
    /// The moment.
    pub now: &'a Moment,
    /// What can be seen with the moment included.
    pub after: &'a Memory,
}

/// The end of an exercise as the rules see it.
#[derive(Clone, Copy, Debug)]
pub struct Close<'a> {
    /// What the exercise is set in.
    pub setting: &'a Setting,
    /// All moments, in order.
    pub moments: &'a [Moment],
    /// What can still be seen when the last note has been heard.
    pub memory: &'a Memory,
}

impl Close<'_> {
    /// Whether a voice is there to the end of the exercise, whatever may be missing before.
    pub fn is_ended(&self, voice: VoiceId) -> bool {
        let is_known = self.memory.lines[voice].state != LineState::Unknown;
        is_known && self.setting.bars_of[voice] == self.setting.bars
    }

    /// The line of a voice; nothing if any of it is not written yet.
    pub fn whole_line(&self, voice: VoiceId) -> Option<&LineMemory> {
        let line = &self.memory.lines[voice];
        (self.is_ended(voice) && !line.has_gaps).then_some(line)
    }

    /// What sounds at each moment, in order; nothing where a voice is silent or not written.
    pub fn simultaneities(&self) -> impl Iterator<Item = Option<Sounded>> + '_ {
        self.moments.iter().scan(Pair::<Option<Heard>>::default(), |sounding, moment| {
            for voice in VoiceId::BOTH {
                sounding[voice] = moment.strokes[voice].sounding(sounding[voice]);
            }
            let (upper, lower) = (sounding.upper, sounding.lower);
            let notes = upper.zip(lower).map(|(upper, lower)| Pair { upper, lower });
            Some(notes.map(|notes| Sounded { onset: moment.onset, notes }))
        })
    }
}

/// Two neighbouring simultaneities.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Progression {
    /// The earlier one.
    pub from: Sounded,
    /// The later one.
    pub to: Sounded,
}

impl Step<'_> {
    /// The bar of the moment, counted from 0.
    pub fn bar(&self) -> u32 {
        self.setting.bar_of(self.now.onset)
    }

    /// How far into its bar the moment lies.
    pub fn within_bar(&self) -> Duration {
        self.setting.within_bar(self.now.onset)
    }

    /// Whether the moment is the beginning of a bar.
    pub fn is_downbeat(&self) -> bool {
        self.within_bar() == Duration::ZERO
    }

    /// Whether the moment lies in the last bar.
    pub fn is_last_bar(&self) -> bool {
        self.bar() + 1 == self.setting.bars
    }

    /// A line, with the moment included.
    pub fn line(&self, voice: VoiceId) -> &LineMemory {
        &self.after.lines[voice]
    }

    /// The note that a voice begins at the moment.
    pub fn struck(&self, voice: VoiceId) -> Option<Heard> {
        self.line(voice).struck()
    }

    /// The last two notes of a voice and the interval between them, if the later one begins now.
    pub fn entered(&self, voice: VoiceId) -> Option<(Heard, Heard, Interval)> {
        let to = self.struck(voice)?;
        let from = self.line(voice).back(1)?;
        Some((from, to, Interval::between(from.pitch, to.pitch)))
    }

    /// The simultaneity of the moment, if a note begins in it.
    pub fn sounded(&self) -> Option<Sounded> {
        self.after.pair.now().filter(Sounded::is_struck)
    }

    /// The way from the moment before to this one, if a note begins in it.
    pub fn progression(&self) -> Option<Progression> {
        Some(Progression { from: self.before.pair.now()?, to: self.sounded()? })
    }

    /// The way from the same place of the bar before to this moment, if a note begins in it.
    pub fn across_bars(&self) -> Option<Progression> {
        let to = self.sounded()?;
        let earlier = self.now.onset.ticks().checked_sub(self.setting.bar_length().ticks())?;
        let from = self.after.pair.at(Duration::from_ticks(earlier))?;
        Some(Progression { from, to })
    }
}

impl Progression {
    /// How the voices move.
    pub fn motion(&self) -> Motion {
        let way = |voice: VoiceId| (self.from.notes[voice].pitch, self.to.notes[voice].pitch);
        Motion::between(way(VoiceId::Upper), way(VoiceId::Lower))
    }

    /// The interval that a voice moves by.
    pub fn interval(&self, voice: VoiceId) -> Interval {
        Interval::between(self.from.notes[voice].pitch, self.to.notes[voice].pitch)
    }

    /// Whether both voices come to another pitch.
    pub fn both_move(&self) -> bool {
        VoiceId::BOTH.iter().all(|voice| !self.interval(*voice).is_unison())
    }
}

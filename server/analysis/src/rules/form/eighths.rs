//! # What it finds
//! Eighths in fifth species that are not a stepwise pair on a weak quarter: one by itself, a pair
//! on a strong quarter, four running, a skip in the pair or away from it, or more pairs in a bar
//! than the school lets pass. In other meters, the notes half as long as those of third species.
//!
//! # Why it matters
//! Eighths are an ornament. On a weak quarter and by step they flow into the beat; on the beat, or
//! with skips, the line stumbles.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 5
//!   soprano counter |  | (C5 B4) A4 G4 A4 | B4 D5 |  |
//!   tenor   cantus  |  | C4               | G3    |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 5
//!   soprano counter |  | C5 (B4 A4) G4 A4 | B4 D5 |  |
//!   tenor   cantus  |  | C4               | G3    |  |
//! ```
//!
//! # Sources
//! Cherubini 1835; Lavignac 1895; Lehmann 1907; Baron; Fux 1725, who has them on the second quarter
//! in all cases but one.
//!
//! # Where schools differ
//! Whether the first of a pair may come by a skip, and whether a bar may have two pairs that do not
//! follow each other.
//!
//! # Switches
//! - `first`: how the line comes to the first eighth of a pair
//!   - `by-step`: by step only (Baron; Fux 1725)
//!   - `by-step-or-skip`: as it likes (Lehmann 1907)
//! - `pairs-in-a-bar`: how many pairs a bar may have
//!   - `one`: one (Cherubini 1835; Lavignac 1895)
//!   - `two-if-split`: two, if they do not follow each other (Lehmann 1907)

use bicinium_theory::Interval;
use serde::Deserialize;

use crate::judge::{Heard, LineMemory, Report, Sight, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;
use crate::score::shares::Florid;

/// How eighths come, and how often.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Eighths {
    first: First,
    pairs_in_a_bar: PairsInABar,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum First {
    /// By step only (Baron, Fux).
    ByStep,
    /// By step or by skip (Lehmann).
    ByStepOrSkip,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum PairsInABar {
    /// One (Cherubini, Lavignac).
    One,
    /// Two, if they do not follow each other (Lehmann).
    TwoIfSplit,
}

impl Rule for Eighths {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(florid) = Florid::of(step.setting) else { return };
        for voice in step.setting.written() {
            if step.struck(voice).is_none() {
                continue;
            }
            let passage = Passage { florid, step, voice, line: step.line(voice) };
            if let Some(lone) = passage.lone() {
                passage.tell_lone(lone, report);
            }
            if let Some(first) = passage.pair(0) {
                self.judge(&passage, first, report);
            }
            if let Some(last) = passage.left_by_skip() {
                passage.tell(last, "leaves the pair by a skip", "Go on by step", report);
            }
        }
    }

    fn sight(&self) -> Sight {
        Sight::notes(3).and(Sight::bars(1))
    }
}

impl Eighths {
    /// Judges a pair that is complete with the note struck now, and tells the gravest breach.
    fn judge(&self, passage: &Passage<'_>, first: Heard, report: &mut Report) {
        let (what, remedy) = if passage.pair(2).is_some() {
            ("makes four eighths running", "Put a quarter between the pairs")
        } else if !passage.is_weak(first) {
            ("begins a pair of eighths on a strong quarter", "Move the pair to a weak one")
        } else if passage.pairs_in_bar() > self.at_most() {
            ("begins one pair of eighths too many for its bar", "Write a quarter")
        } else if !passage.is_step(0) {
            ("makes a skip with the other eighth of its pair", "Let the pair move by step")
        } else if self.first == First::ByStep && passage.is_skip(1) {
            ("begins a pair of eighths by a skip", "Come to it by step")
        } else {
            return;
        };
        passage.tell(first, what, remedy, report);
    }

    fn at_most(&self) -> usize {
        match self.pairs_in_a_bar {
            PairsInABar::One => 1,
            PairsInABar::TwoIfSplit => 2,
        }
    }
}

/// The end of a line, in which the latest note has just been struck.
struct Passage<'a> {
    florid: Florid,
    step: &'a Step<'a>,
    voice: VoiceId,
    line: &'a LineMemory,
}

impl Passage<'_> {
    /// The first note of the pair whose second note stands `count` notes back.
    fn pair(&self, count: usize) -> Option<Heard> {
        let (first, second) = (self.line.back(count + 1)?, self.line.back(count)?);
        let is_pair = self.is_eighth(first) && self.is_eighth(second) && self.begins(first);
        (is_pair && first.end() == second.onset).then_some(first)
    }

    /// An eighth that is known by now to have no other beside it.
    fn lone(&self) -> Option<Heard> {
        let (before, now) = (self.line.back(1)?, self.line.last()?);
        if self.is_eighth(before) && self.begins(before) && !self.is_eighth(now) {
            return Some(before);
        }
        let is_second = self.is_eighth(now) && !self.begins(now);
        (is_second && self.pair(0).is_none()).then_some(now)
    }

    fn left_by_skip(&self) -> Option<Heard> {
        self.pair(1)?;
        self.line.back(1).filter(|_| !self.is_step(0))
    }

    fn pairs_in_bar(&self) -> usize {
        let start = self.step.setting.bar_start(self.step.bar());
        let pairs = (0..self.line.notes().len()).filter_map(|count| self.pair(count));
        pairs.filter(|first| first.onset >= start).count()
    }

    fn is_eighth(&self, note: Heard) -> bool {
        note.duration == self.florid.eighth
    }

    /// Whether a note begins a quarter.
    fn begins(&self, note: Heard) -> bool {
        self.florid.is_quarter(self.step.setting.within_bar(note.onset))
    }

    fn is_weak(&self, note: Heard) -> bool {
        self.florid.is_weak_quarter(self.step.setting.within_bar(note.onset))
    }

    fn is_step(&self, count: usize) -> bool {
        self.line.interval(count).is_some_and(Interval::is_step)
    }

    /// Whether an interval is known and no step.
    fn is_skip(&self, count: usize) -> bool {
        self.line.interval(count).is_some_and(|interval| !interval.is_step())
    }

    fn tell_lone(&self, lone: Heard, report: &mut Report) {
        let length = lone.duration;
        report.at(self.voice, lone.onset, || {
            Words::new(format!(
                "{} is {} by itself. Write two of them on a weak quarter, or a longer note.",
                wording::note_in(self.step.setting, lone),
                wording::with_article(&length.to_string()),
            ))
        });
    }

    fn tell(&self, note: Heard, what: &str, remedy: &str, report: &mut Report) {
        report.at(self.voice, note.onset, || {
            Words::new(format!("{} {what}. {remedy}.", wording::note_in(self.step.setting, note)))
        });
    }
}

//! # What it finds
//! A run of notes in one direction whose outer notes are a tritone apart, where the line turns
//! without resolving it.
//!
//! # Why it matters
//! The ear keeps the turning points of a line. Where two of them make a tritone, the line sounds
//! as if it had leapt it.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | C5 | E5 | F5 | D5 | E5 |  |
//!   tenor   counter |  | F3 | G3 | A3 | B3 | G3 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | C5 | E5 | F5 | D5 | E5 |  |
//!   tenor   counter |  | F3 | G3 | A3 | B3 | C4 |  |
//! ```
//!
//! # Sources
//! Grove 1883; York (IV); Lavignac 1895. Fux 1725 frames one in figures 14, 15, 21 and 59. That a
//! tritone inside a longer run counts too is a lead from memory.
//!
//! # Where schools differ
//! A caution in modal teaching. In conservatoire teaching a fault, unless the next note resolves
//! it by step: a diminished fifth inward. An augmented fourth is resolved only by going on.
//!
//! # Switches
//! - `counted`: which tritones of a run in one direction count
//!   - `unresolved-frames`: those between its outer notes, unless the next note resolves them by
//!     step (common practice)
//!   - `all-frames`: those between its outer notes, whatever follows (Grove 1883; an older American
//!     manual; Lavignac 1895)
//!   - `any-outline`: those between any two of its notes (from memory)

use bicinium_theory::Interval;
use serde::Deserialize;

use crate::judge::{Close, Heard, Report, Run, Sight, Step, Trace, Words};
use crate::rules::{Rule, wording};
use crate::score::{Setting, VoiceId};

/// Which tritones of a run count.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct FramedTritone {
    counted: Counted,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Counted {
    /// Those between the outer notes of a run, unless the next note resolves them.
    UnresolvedFrames,
    /// Those between the outer notes of a run, whatever follows (Grove, York, Lavignac).
    AllFrames,
    /// Those between any two notes of a run.
    AnyOutline,
}

impl Rule for FramedTritone {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        for voice in step.setting.written() {
            let found = match self.counted {
                Counted::AnyOutline => outlined(step, voice),
                Counted::UnresolvedFrames | Counted::AllFrames => self.framed(step, voice),
            };
            if let Some((from, to)) = found {
                self.tell(step.setting, voice, from, to, report);
            }
        }
    }

    fn close(&self, close: &Close<'_>, report: &mut Report) {
        if self.counted == Counted::AnyOutline {
            return;
        }
        for voice in close.setting.written().filter(|voice| close.is_ended(*voice)) {
            if let Some(run) = close.memory.lines[voice].run.filter(frames) {
                self.tell(close.setting, voice, run.from, run.to, report);
            }
        }
    }

    fn sight(&self) -> Sight {
        match self.counted {
            Counted::AnyOutline => Sight::of(Trace::RunNotes),
            Counted::UnresolvedFrames | Counted::AllFrames => Sight::of(Trace::Run),
        }
    }
}

impl FramedTritone {
    /// The outer notes of a run that ends at the moment.
    fn framed(&self, step: &Step<'_>, voice: VoiceId) -> Option<(Heard, Heard)> {
        let (_, _, exit) = step.entered(voice)?;
        let run = step.before.lines[voice].run.filter(frames)?;
        let goes_on = exit.is_unison() || exit.direction() == run.direction;
        let saves = self.counted == Counted::UnresolvedFrames && resolves(run, exit);
        (!goes_on && !saves).then_some((run.from, run.to))
    }

    fn tell(&self, setting: &Setting, voice: VoiceId, from: Heard, to: Heard, report: &mut Report) {
        report.at(voice, to.onset, || {
            let is_diminished = Interval::between(from.pitch, to.pitch).is_diminished();
            let mend = match self.counted {
                Counted::AnyOutline => "Turn earlier",
                Counted::UnresolvedFrames if is_diminished => "Turn back by step, or earlier",
                _ => "Go one step further, or turn earlier",
            };
            Words::new(format!(
                "The run {} makes a tritone in {}. {mend}.",
                wording::from_to(from, to),
                wording::place(setting, to.onset),
            ))
            .with(voice, from.onset, "the tritone begins here")
        });
    }
}

/// Whether a run frames a tritone; a single leap is told by other rules.
fn frames(run: &Run) -> bool {
    run.is_longer && run.frame().is_tritone()
}

/// A diminished fifth resolves inward by step; turning back from an augmented fourth does not
/// resolve it.
fn resolves(run: Run, exit: Interval) -> bool {
    run.frame().is_diminished() && exit.is_step()
}

/// The note that completes a tritone with an earlier note of its run, after that note.
fn outlined(step: &Step<'_>, voice: VoiceId) -> Option<(Heard, Heard)> {
    let (last, to, _) = step.entered(voice).filter(|(.., interval)| !interval.is_unison())?;
    let line = step.line(voice);
    let start = line.run?.from.onset;
    let is_leap = |from: &Heard| from.pitch == last.pitch;
    let is_tritone = |from: &Heard| Interval::between(from.pitch, to.pitch).is_tritone();
    let mut inside = line.notes().iter().rev().filter(|from| start <= from.onset);
    inside.find(|from| is_tritone(from) && !is_leap(from)).map(|from| (*from, to))
}

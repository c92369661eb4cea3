//! # What it finds
//! A unison on a strong beat that is neither the beginning nor the end; where the school says so,
//! also one on a weak beat.
//!
//! # Why it matters
//! On a strong beat a unison makes two voices into one, and the harmony vanishes.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter |  | E4 | D4 |  |
//!   tenor   cantus  |  | C4 | D4 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter |  | E4 | F4 |  |
//!   tenor   cantus  |  | C4 | D4 |  |
//! ```
//!
//! # Sources
//! Open Music Theory; Lavignac 1895 (4); Lehmann 1907. On a weak beat all but Lavignac admit it.
//!
//! # Where schools differ
//! They do not, on strong beats. On weak beats most admit it, Lavignac seldom.
//!
//! # Switches
//! - `on-weak-beats`: how often a unison may stand on a weak beat
//!   - `admitted`: as often as it comes (Open Music Theory; Lehmann 1907; Grove 1883; an older
//!     American manual)
//!   - `once`: seldom, once in an exercise (Lavignac 1895)
//!   - `refused`: not at all (from memory)

use bicinium_theory::Duration;
use serde::Deserialize;

use crate::judge::{Close, Report, Sight, Sounded, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::{Setting, VoiceId};

/// How often a unison may stand on a weak beat; on a strong beat none may.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct InnerUnison {
    on_weak_beats: OnWeakBeats,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum OnWeakBeats {
    /// As often as it comes.
    Admitted,
    /// Once in an exercise.
    Once,
    /// Not at all.
    Refused,
}

impl Rule for InnerUnison {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let is_strong_inside = step.is_downbeat() && is_inside(step.setting, step.now.onset);
        let Some(now) = step.sounded().filter(|_| is_strong_inside) else { return };
        if now.interval().is_unison() {
            tell(step.setting, now, "the strong beat of ", report);
        }
    }

    fn close(&self, close: &Close<'_>, report: &mut Report) {
        let Some(most) = self.on_weak_beats.most() else { return };
        let is_meant = |sounded: &Sounded| is_weak_unison(close.setting, sounded);
        for unison in close.simultaneities().flatten().filter(is_meant).skip(most) {
            tell(close.setting, unison, "", report);
        }
    }

    fn sight(&self) -> Sight {
        match self.on_weak_beats {
            OnWeakBeats::Admitted => Sight::LAST,
            OnWeakBeats::Once | OnWeakBeats::Refused => Sight::WHOLE,
        }
    }
}

impl OnWeakBeats {
    /// How many there may be; nothing if there is no limit.
    fn most(self) -> Option<usize> {
        match self {
            Self::Admitted => None,
            Self::Once => Some(1),
            Self::Refused => Some(0),
        }
    }
}

fn is_weak_unison(setting: &Setting, sounded: &Sounded) -> bool {
    let is_weak = setting.within_bar(sounded.onset) > Duration::ZERO;
    let is_unison = sounded.interval().is_unison() && sounded.is_struck();
    is_weak && is_unison && is_inside(setting, sounded.onset)
}

fn is_inside(setting: &Setting, onset: Duration) -> bool {
    let bar = setting.bar_of(onset);
    bar > 0 && bar + 1 < setting.bars
}

fn tell(setting: &Setting, unison: Sounded, beat: &str, report: &mut Report) {
    report.together(unison.onset, || {
        Words::new(format!(
            "Both voices sing {} on {beat}{}. Take a third, a sixth or an octave.",
            unison.notes.upper.pitch,
            wording::place(setting, unison.onset),
        ))
        .with(VoiceId::Upper, unison.notes.upper.onset, "the upper voice")
    });
}

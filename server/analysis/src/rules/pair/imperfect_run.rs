//! # What it finds
//! More thirds in a row, or more sixths, than the school admits.
//!
//! # Why it matters
//! A few in a row are sweet; many tie the voices together until only one line is left, in two
//! colours.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | E5 | D5 | C5 | B4 |  |
//!   tenor   counter |  | C4 | B3 | A3 | G3 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  |  | E5 | D5 | C5 | B4  |  |
//!   tenor   counter |  | C4 | B3 | C4 | G3 |  |
//! ```
//!
//! # Sources
//! Open Music Theory; Lavignac 1895 (7); Lehmann 1907 (8): three.
//!
//! # Where schools differ
//! Three everywhere; Fux keeps to it in first species only. Whether the beginnings of bars make a
//! chain of their own is a switch.
//!
//! # Switches
//! - `at-most`: how many thirds, or sixths, may follow each other, a whole number
//!   - `3`: three (Open Music Theory; Lavignac 1895; Lehmann 1907; Fux 1725 in first species)
//!   - `4`: four (from memory)
//! - `counted`: where they are counted
//!   - `everywhere`: from each moment to the next (Open Music Theory; Lavignac 1895; Lehmann 1907)
//!   - `on-strong-beats`: on the strong beats, whatever stands between them (from memory)

use bicinium_theory::Duration;
use serde::Deserialize;

use super::{run, telling};
use crate::judge::{Close, Report, Sight, Sounded, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::{Setting, VoiceId};

/// How many may follow each other, and where they are counted.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct ImperfectRun {
    at_most: usize,
    counted: Counted,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Counted {
    /// From each moment to the next.
    Everywhere,
    /// On the strong beats, whatever stands between them.
    OnStrongBeats,
}

impl Rule for ImperfectRun {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let is_counted = |now: &Sounded| self.counted == Counted::Everywhere && name(now).is_some();
        let Some(now) = step.sounded().filter(is_counted) else { return };
        let run = run::alike(step, |earlier| name(earlier) == name(&now));
        self.judge(step.setting, &run, report);
    }

    fn close(&self, close: &Close<'_>, report: &mut Report) {
        if self.counted != Counted::OnStrongBeats {
            return;
        }
        let is_strong = |onset| close.setting.within_bar(onset) == Duration::ZERO;
        let mut run: Vec<Sounded> = Vec::new();
        for (moment, sounded) in close.moments.iter().zip(close.simultaneities()) {
            if !is_strong(moment.onset) {
                continue;
            }
            let goes_on = |now: &Sounded| run.first().is_some_and(|last| name(last) == name(now));
            if !sounded.as_ref().is_some_and(goes_on) {
                run.clear();
            }
            run.splice(0..0, sounded);
            self.judge(close.setting, &run, report);
        }
    }

    fn sight(&self) -> Sight {
        match self.counted {
            Counted::Everywhere => Sight::moments(self.at_most.saturating_add(1)),
            Counted::OnStrongBeats => Sight::WHOLE,
        }
    }
}

impl ImperfectRun {
    /// Tells of a run, given with its latest member first, when it becomes too long.
    fn judge(&self, setting: &Setting, run: &[Sounded], report: &mut Report) {
        let (Some(now), Some(first)) = (run.first(), run.last()) else { return };
        let Some(name) = name(now).filter(|_| run.len() == self.at_most + 1) else { return };
        report.together(now.onset, || {
            Words::new(format!(
                "{} {name} in a row{}, up to {} in {}. Break the chain with a fifth, an octave or \
                 the other imperfect consonance.",
                run.len(),
                self.counted.words(),
                telling::pair(*now),
                wording::place(setting, now.onset),
            ))
            .with(VoiceId::Upper, first.onset, "the first of them")
        });
    }
}

impl Counted {
    fn words(self) -> &'static str {
        match self {
            Self::Everywhere => "",
            Self::OnStrongBeats => " on strong beats",
        }
    }
}

/// What a member of a chain is called.
fn name(sounded: &Sounded) -> Option<&'static str> {
    match sounded.simple_number() {
        3 => Some("thirds"),
        6 => Some("sixths"),
        _ => None,
    }
}

//! # What it finds
//! Two leaps in one direction that do not stay within one major, minor or diminished triad, or three
//! leaps in one direction.
//!
//! # Why it matters
//! A broken triad is heard as one thing. Other leaps that go on in one direction tear the line out
//! of its register.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter |  | C4 | E4 | G4 | C5 | B4 |  |
//!   tenor   cantus  |  | A3 | G3 | E3 | A3 | G3 |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 1
//!   soprano counter |  | C4 | E4 | G4 | F4 | G4 |  |
//!   tenor   cantus  |  | A3 | G3 | E3 | A3 | G3 |  |
//! ```
//!
//! # Sources
//! Open Music Theory; Bridge 1877 (10); Lehmann 1907 (9). Fux 1725 writes two in one direction 29
//! times.
//!
//! # Where schools differ
//! A caution in all of them.

use bicinium_theory::{Interval, Pitch};
use serde::Deserialize;

use crate::judge::{LineMemory, Report, Sight, Step, Words};
use crate::rules::{Rule, wording};

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LeapsInOneDirection {}

impl Rule for LeapsInOneDirection {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        for voice in step.setting.written() {
            let line = step.line(voice);
            let Some((_, to, _)) = step.entered(voice) else { continue };
            let leaps = leaps_in_a_row(line);
            let Some(from) = line.back(leaps).filter(|_| is_too_much(line, leaps)) else {
                continue;
            };
            report.at(voice, to.onset, || {
                let triad = if leaps == 2 {
                    " outside any one major, minor or diminished triad"
                } else {
                    ""
                };
                Words::new(format!(
                    "{} leaps in one direction, {}, end in {}{triad}. Turn back after the first, \
                     or put a step between.",
                    if leaps == 2 { "Two" } else { "Three" },
                    wording::from_to(from, to),
                    wording::place(step.setting, to.onset),
                ))
                .with(voice, from.onset, "the first leap begins here")
            });
        }
    }

    fn sight(&self) -> Sight {
        Sight::notes(3)
    }
}

/// How many of the latest three intervals are leaps in the direction of the latest.
fn leaps_in_a_row(line: &LineMemory) -> usize {
    let direction = line.interval(0).map(Interval::direction);
    let goes_on = |leap: &Interval| leap.is_leap() && Some(leap.direction()) == direction;
    (0..3).map_while(|count| line.interval(count).filter(goes_on)).count()
}

/// Two leaps that frame a seventh or a ninth are told by another rule.
fn is_too_much(line: &LineMemory, leaps: usize) -> bool {
    if leaps < 2 {
        return false;
    }
    let pitches: Vec<Pitch> = line.notes().iter().rev().take(leaps + 1).map(|n| n.pitch).collect();
    let (Some(last), Some(first)) = (pitches.first(), pitches.last()) else { return false };
    let frame = Interval::between(*first, *last);
    leaps == 3 || !(matches!(frame.number(), 7 | 9) || is_in_one_triad(&pitches))
}

/// Whether the letters of all pitches stand in thirds over one of them, and no fifth among them is
/// augmented: two major thirds in one direction make no triad that a line can rest on (Lehmann 9).
fn is_in_one_triad(pitches: &[Pitch]) -> bool {
    stand_in_thirds(pitches)
        && !pitches.iter().any(|low| pitches.iter().any(|high| is_augmented_fifth(*low, *high)))
}

fn is_augmented_fifth(low: Pitch, high: Pitch) -> bool {
    let interval = Interval::between(low, high).simple();
    interval == Interval::new(4, 8) || interval == Interval::new(3, 4)
}

fn stand_in_thirds(pitches: &[Pitch]) -> bool {
    let letters = || pitches.iter().map(|pitch| pitch.letter().index());
    letters().any(|root| letters().all(|letter| matches!((letter - root).rem_euclid(7), 0 | 2 | 4)))
}

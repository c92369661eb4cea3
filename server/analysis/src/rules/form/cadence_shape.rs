//! # What it finds
//! A last bar but one without the usual figure of its species: in second species 5–6 above the
//! cantus and 5–3 below it; in third 3–4–5–6 above, 3–5–4–3 or 6–3–6–3 below; in fourth 7–6 above,
//! 2–3 below; in fifth the same, plain or decorated. They suit a cantus that falls to the final by
//! step; under another, and in triple time, none is usual.
//!
//! # Why it matters
//! These figures reach the leading note at the right moment and have been found good by everyone.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano cantus  |  | D5    | C5 |
//!   tenor   counter |  | B3 G3 | C4 |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 2
//!   soprano cantus  |  | D5    | C5 |
//!   tenor   counter |  | G3 B3 | C4 |
//! ```
//!
//! # Sources
//! Open Music Theory; Grove 1883; Fux 1725.
//!
//! # Where schools differ
//! A matter of taste everywhere.

use bicinium_theory::Direction;
use serde::Deserialize;

use crate::judge::{Report, Sight, Sounded, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::shares::count;
use crate::score::{Setting, VoiceId};

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CadenceShape {}

impl Rule for CadenceShape {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let is_close = step.is_last_bar() && step.is_downbeat();
        let (Some(cantus), Some(species), true) =
            (step.setting.cantus, step.setting.species, is_close)
        else {
            return;
        };
        let usual = usual(species, cantus.other());
        let is_formula = is_duple(step.setting) && closes_from_above(step, cantus);
        let Some(bar) = last_bar_but_one(step).filter(|_| is_formula) else { return };
        let shape: Vec<u16> = bar.iter().map(Sounded::simple_number).collect();
        if bar.len() < 2
            || usual.is_empty()
            || usual.iter().any(|usual| is_like(species, &shape, usual))
        {
            return;
        }
        report.at(cantus.other(), bar[0].onset, || {
            Words::new(format!(
                "The last bar but one, {}, has {} against the cantus; the usual figure is {}.",
                wording::place(step.setting, bar[0].onset),
                figure(&shape),
                usual.iter().map(|shape| figure(shape)).collect::<Vec<_>>().join(" or "),
            ))
        });
    }

    fn sight(&self) -> Sight {
        Sight::bars(1)
    }
}

/// Whether bars divide into halves and quarters, as the usual figures do.
fn is_duple(setting: &Setting) -> bool {
    (count(setting, 2), count(setting, 3)) == (2, 4)
}

/// Whether the cantus comes to the final from the second degree, as the usual figures take it.
fn closes_from_above(step: &Step<'_>, cantus: VoiceId) -> bool {
    let entered = step.entered(cantus);
    entered.is_some_and(|(_, to, interval)| {
        interval.is_step()
            && interval.direction() == Direction::Down
            && to.pitch.class() == step.setting.key.tonic
    })
}

/// The usual figures, as intervals against the cantus.
fn usual(species: u8, counter: VoiceId) -> &'static [&'static [u16]] {
    match (species, counter) {
        (2, VoiceId::Upper) => &[&[5, 6]],
        (2, VoiceId::Lower) => &[&[5, 3]],
        (3, VoiceId::Upper) => &[&[3, 4, 5, 6]],
        (3, VoiceId::Lower) => &[&[3, 5, 4, 3], &[6, 3, 6, 3]],
        (4 | 5, VoiceId::Upper) => &[&[7, 6]],
        (4 | 5, VoiceId::Lower) => &[&[2, 3]],
        _ => &[],
    }
}

/// Whether a figure is a usual one; in fifth species, whether it decorates one.
fn is_like(species: u8, shape: &[u16], usual: &[u16]) -> bool {
    match species {
        5 => shape.first() == usual.first() && shape.last() == usual.last(),
        _ => shape == usual,
    }
}

/// The simultaneities of the last bar but one, if all of it is written.
fn last_bar_but_one(step: &Step<'_>) -> Option<Vec<Sounded>> {
    let start = step.setting.bar_start(step.bar().checked_sub(1)?);
    let recent = step.before.pair.recent().take_while(|sounded| sounded.onset >= start);
    let mut bar: Vec<_> = recent.collect();
    bar.reverse();
    bar.first().is_some_and(|first| first.onset == start).then_some(bar)
}

/// "5–6".
fn figure(shape: &[u16]) -> String {
    shape.iter().map(u16::to_string).collect::<Vec<_>>().join("–")
}

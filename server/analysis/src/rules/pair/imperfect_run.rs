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
//! Three everywhere.

use serde::Deserialize;

use super::{run, telling};
use crate::judge::{Report, Sounded, Step, Words};
use crate::rules::{Rule, wording};
use crate::score::VoiceId;

/// How many may follow each other.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct ImperfectRun {
    at_most: usize,
}

impl Rule for ImperfectRun {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(now) = step.sounded() else { return };
        let (number, name) = match now.simple_number() {
            3 => (3, "thirds"),
            6 => (6, "sixths"),
            _ => return,
        };
        let alike = |sounded: &Sounded| sounded.simple_number() == number;
        let run = run::alike(step, alike);
        if run.len() != self.at_most + 1 {
            return;
        }
        report.together(now.onset, || {
            let words = Words::new(format!(
                "{} {name} in a row, up to {} in {}. Break the chain with a fifth, an octave or \
                 the other imperfect consonance.",
                run.len(),
                telling::pair(now),
                wording::place(step.setting, now.onset),
            ));
            match run.last() {
                Some(first) => words.with(VoiceId::Upper, first.onset, "the first of them"),
                None => words,
            }
        });
    }
}

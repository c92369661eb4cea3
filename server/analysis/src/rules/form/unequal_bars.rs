//! # What it finds
//! Voices that do not have the same number of bars.
//!
//! # Why it matters
//! One of them has lost or gained a bar, and from there on nothing stands against what it was
//! meant for.
//!
//! # Broken
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  | | C5 | D5 | E5 |
//!   tenor   counter | | A3 | B3 |
//! ```
//!
//! # Mended
//! ```bicinium
//! key C major
//!
//! exercise
//!   species 1
//!   soprano cantus  | | C5 | D5 | E5 |
//!   tenor   counter | | A3 | B3 |    |
//! ```
//!
//! # Sources
//! Common practice.
//!
//! # Where schools differ
//! They do not.

use std::cmp::Ordering;

use serde::Deserialize;

use crate::judge::{Close, Report, Words};
use crate::rules::Rule;
use crate::score::VoiceId;

/// The rule without switches.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct UnequalBars {}

impl Rule for UnequalBars {
    fn close(&self, close: &Close<'_>, report: &mut Report) {
        let bars = close.setting.bars_of;
        let shorter = match bars.upper.cmp(&bars.lower) {
            Ordering::Less => VoiceId::Upper,
            Ordering::Greater => VoiceId::Lower,
            Ordering::Equal => return,
        };
        let Some(last) = bars[shorter].checked_sub(1) else { return };
        report.at(shorter, close.setting.bar_start(last), || {
            Words::new(format!(
                "The upper voice has {}, the lower voice {}. Write the missing bars, blank ones if \
                 need be.",
                count(bars.upper),
                count(bars.lower),
            ))
        });
    }
}

fn count(bars: u32) -> String {
    if bars == 1 { "1 bar".to_owned() } else { format!("{bars} bars") }
}

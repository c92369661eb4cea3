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
        if bars.upper == bars.lower || bars.upper == 0 || bars.lower == 0 {
            return;
        }
        let shorter = if bars.upper < bars.lower { VoiceId::Upper } else { VoiceId::Lower };
        let last = close.setting.bar_start(bars[shorter].saturating_sub(1));
        report.at(shorter, last, || {
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

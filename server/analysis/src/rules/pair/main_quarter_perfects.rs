//! # What it finds
//! In third species, the same perfect consonance too soon again: on a quarter shortly before a
//! barline and on the beat after it, or on the beginnings of too many bars in a row.
//!
//! # Why it matters
//! Quarters pass quickly. A fifth or an octave is still in the ear when the next one stands on the
//! strong beat, and one or two notes between do not hide it.
//!
//! # Broken
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 3
//!   soprano counter |  | E4 F4 G4 C5 | B4 A4 G4 C5 |  |
//!   alto    cantus  |  | C4          | E4          |  |
//! ```
//!
//! # Mended
//! ```bicinium
//! rulebook modal
//! key C ionian
//!
//! exercise
//!   species 3
//!   soprano counter |  | E4 F4 G4 A4 | G4 A4 B4 C5 |  |
//!   alto    cantus  |  | C4          | E4          |  |
//! ```
//!
//! # Sources
//! Open Music Theory; Lavignac 1895; Lehmann 1907 (47); Grove 1883.
//!
//! # Where schools differ
//! How far apart the two must be. Open Music Theory keeps fifths three quarters and octaves four
//! quarters apart, and lets two bars begin alike, not three; Lavignac asks for four quarters;
//! Lehmann for more than a bar; Grove looks at the beginnings of bars only. Lavignac tolerates what
//! comes by contrary motion.
//!
//! # Switches
//! - `window`: how soon a perfect consonance may come again on the beginning of a bar
//!   - `open-music-theory`: fifths not within two quarters, octaves not within three; two bars may
//!     begin alike, not three (Open Music Theory)
//!   - `lavignac`: neither within three quarters; bars may begin alike (Lavignac 1895)
//!   - `lehmann`: neither within three quarters; no two bars begin alike (Lehmann 1907, fig. 47)
//!   - `grove`: no two bars begin alike (Grove 1883)
//! - `by-contrary-motion`: whether voices moving apart or together may come to it again behind one
//!   quarter or two
//!   - `refused`: they may not (Open Music Theory; Lehmann 1907)
//!   - `admitted`: they may (Lavignac 1895)

use bicinium_theory::{Duration, Motion, PerfectClass};
use serde::Deserialize;

use super::telling;
use crate::judge::{Progression, Report, Sight, Sounded, Step, Words};
use crate::rules::Rule;
use crate::score::VoiceId;

/// How soon a perfect consonance may come again on the beginning of a bar.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct MainQuarterPerfects {
    window: Window,
    by_contrary_motion: Contrary,
}

/// Whose answer holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Window {
    /// Fifths not within two quarters, octaves not within three; two bars may begin alike.
    OpenMusicTheory,
    /// Neither within three quarters; bars may begin alike.
    Lavignac,
    /// Neither within three quarters; no two bars begin alike.
    Lehmann,
    /// No two bars begin alike.
    Grove,
}

/// Whether voices that move apart or together may come to the same consonance soon again.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Contrary {
    /// They may not.
    Refused,
    /// They may, behind one quarter or two.
    Admitted,
}

impl Rule for MainQuarterPerfects {
    fn step(&self, step: &Step<'_>, report: &mut Report) {
        let Some(to) = step.sounded().filter(|_| step.is_downbeat()) else { return };
        let Some(from) = self.too_soon(step, to).or_else(|| self.too_often(step, to)) else {
            return;
        };
        report.together(to.onset, || {
            Words::new(format!(
                "{} too close to each other: {}. Put a third or a sixth on this beat, or lead to \
                 it over other notes.",
                telling::kind(from, to),
                telling::one_after_the_other(step.setting, from, to),
            ))
            .with(VoiceId::Upper, from.onset, "the same consonance before")
        });
    }

    fn sight(&self) -> Sight {
        let classes = [PerfectClass::Fifth, PerfectClass::Octave];
        let quarters = classes.map(|class| self.window.quarters(class)).into_iter().max();
        let starts = self.window.alike_starts().unwrap_or(0);
        let [quarters, starts] =
            [quarters.unwrap_or(0), starts].map(|count| u8::try_from(count).unwrap_or(u8::MAX));
        Sight::perfects_before_barlines(quarters).and(Sight::perfects_on_downbeats(starts))
    }
}

impl MainQuarterPerfects {
    /// The same consonance shortly before, with other notes between.
    fn too_soon(&self, step: &Step<'_>, to: Sounded) -> Option<Sounded> {
        let reach = Duration::QUARTER * self.window.quarters(to.perfect()?);
        let earlier = step.before.pair.recent().skip(1);
        let mut within = earlier.take_while(|from| to.onset - from.onset <= reach);
        within.find(|from| from.is_struck() && comes_again(*from, to) && !self.admits(*from, to))
    }

    fn admits(&self, from: Sounded, to: Sounded) -> bool {
        let is_contrary = Progression { from, to }.motion() == Motion::Contrary;
        is_contrary && self.by_contrary_motion == Contrary::Admitted
    }

    /// The same consonance on the beginning of the bar before, and of as many more as it takes.
    fn too_often(&self, step: &Step<'_>, to: Sounded) -> Option<Sounded> {
        let starts = self.window.alike_starts()?;
        let mut later = to;
        for back in 1..=starts {
            let onset = step.bar().checked_sub(back).map(|bar| step.setting.bar_start(bar))?;
            let from = step.after.pair.at(onset).filter(|from| comes_again(*from, later))?;
            later = from;
        }
        step.after.pair.at(step.setting.bar_start(step.bar().checked_sub(1)?))
    }
}

impl Window {
    /// Within how many quarters a consonance may not come again.
    fn quarters(self, class: PerfectClass) -> u32 {
        match (self, class) {
            (Self::OpenMusicTheory, PerfectClass::Fifth) => 2,
            (Self::OpenMusicTheory, PerfectClass::Octave) | (Self::Lavignac | Self::Lehmann, _) => {
                3
            }
            (Self::Grove, _) => 0,
        }
    }

    /// How many bars in a row may begin alike; none if it does not matter.
    fn alike_starts(self) -> Option<u32> {
        match self {
            Self::OpenMusicTheory => Some(2),
            Self::Lavignac => None,
            Self::Lehmann | Self::Grove => Some(1),
        }
    }
}

/// Whether it is the same perfect consonance and both voices have moved.
fn comes_again(from: Sounded, to: Sounded) -> bool {
    to.perfect().is_some() && to.perfect() == from.perfect() && Progression { from, to }.both_move()
}

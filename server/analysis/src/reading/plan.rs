//! How a school reads harmony: its vocabulary, how often harmonies change, and what makes one
//! reading more likely than another. Data of a rulebook; knows no exercise.
//!
//! # Switches
//! - `implied`: whether bars stand for harmonies
//!   - `no`: only the intervals between the voices count (Fux 1725; Open Music Theory)
//!   - `yes`: every bar stands for a harmony (Bridge 1877; Lehmann 1907; Lavignac 1895)
//! - `per-bar`: how many harmonies a bar may have
//!   - `one`: one (Bridge 1877, in first and second species)
//!   - `two`: two, of which the second enters in the middle of the bar, or in bars of three on the
//!     second or third beat, unless that is the last quarter (Bridge 1877, from third species on;
//!     common practice)
//! - `vocabulary.major`: the harmonies of major, with the inversions in which they may stand
//!   - *a list of numerals such as V6*: triads in root position and first inversion, vii° only in
//!     first inversion; sevenths where the school has them (Bridge 1877, ch. 6; Lehmann 1907); second
//!     inversions where it has them, in which the fourth itself stays dissonant (Lehmann 1907)
//! - `vocabulary.minor`: the harmonies of minor, with the inversions in which they may stand
//!   - *a list of numerals such as V6*: the same, with the raised seventh degree in the dominant
//!     harmonies (Lehmann 1907)
//! - `vocabulary.dorian`: the harmonies of dorian, with the inversions in which they may stand
//!   - *a list of numerals such as V6*: triads on its scale, with those of the leading note (common
//!     practice)
//! - `vocabulary.phrygian`: the harmonies of phrygian, with the inversions in which they may stand
//!   - *a list of numerals such as V6*: triads on its scale (common practice)
//! - `vocabulary.lydian`: the harmonies of lydian, with the inversions in which they may stand
//!   - *a list of numerals such as V6*: triads on its scale (common practice)
//! - `vocabulary.mixolydian`: the harmonies of mixolydian, with the inversions in which they may
//!   stand
//!   - *a list of numerals such as V6*: triads on its scale, with those of the leading note (common
//!     practice)
//! - `costs.degrees`: how far-fetched a harmony is on each degree, the tonic first
//!   - *seven whole numbers*: 0 is the readiest (common practice)
//! - `costs.change`: what a new harmony costs, instead of the old one prolonged
//!   - *a whole number*: the more, the longer harmonies are held (common practice)
//! - `costs.change-inside`: what a new harmony costs that enters inside a bar
//!   - *a whole number*: the more, the rarer it is (common practice)
//! - `costs.weak-motion`: what the dominant costs that goes to the supertonic or the subdominant
//!   - *a whole number*: the more, the rarer it is (common practice)
//! - `costs.frame`: what a first or last harmony costs that is not the tonic
//!   - *a whole number*: the more, the rarer it is (common practice)
//! - `costs.third-in-bass`: what the third in the bass costs
//!   - *a whole number*: the more, the rarer it is (common practice)
//! - `costs.fifth-in-bass`: what the fifth in the bass costs, where the school has second inversions
//!   - *a whole number*: the more, the rarer it is (common practice)
//! - `costs.doubled-third`: what the third in both voices costs
//!   - *a whole number*: the more, the rarer it is (common practice)
//! - `costs.rootless`: what third and fifth without the root cost
//!   - *a whole number*: the more, the rarer it is (common practice)
//! - `costs.weak-figure`: what a note costs that only embellishes on a weak beat
//!   - *a whole number*: the more, the rather a change of harmony is heard (common practice)
//! - `costs.accented-figure`: what a note costs that only embellishes on a strong beat
//!   - *a whole number*: the more, the rather a change of harmony is heard (common practice)
//! - `costs.suspension`: what a note costs that is held into a dissonance
//!   - *a whole number*: the more, the rather a harmony is heard that it belongs to (common practice)
//! - `costs.alternatives`: how much more than the best reading another may cost to be told beside
//!   it
//!   - *a whole number*: the more, the more readings are told (common practice)

use std::collections::BTreeMap;

use bicinium_theory::{Duration, Meter, Mode, Numeral};
use serde::Deserialize;

use crate::rulebook::Spelt;

/// How a school reads harmony.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Plan {
    /// Whether bars stand for harmonies at all, or only the intervals count.
    pub implied: Implied,
    /// The harmonies of each mode, with the inversions in which they may stand.
    #[serde(default)]
    vocabulary: BTreeMap<Spelt<Mode>, Vec<Spelt<Numeral>>>,
    /// How many harmonies a bar may have.
    #[serde(default)]
    pub per_bar: PerBar,
    /// What makes a reading less likely.
    #[serde(default)]
    pub costs: Costs,
}

/// Whether bars stand for harmonies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Implied {
    /// Only the intervals between the voices count.
    No,
    /// Every bar stands for a harmony.
    Yes,
}

/// How many harmonies a bar may have.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PerBar {
    /// One.
    #[default]
    One,
    /// Two; the second enters on a later main beat.
    Two,
}

/// What makes a reading less likely; nothing where nothing is said. A fault weighs more than any sum
/// of these.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields, default)]
pub struct Costs {
    /// By scale degree of the root, the tonic first.
    degrees: [u32; 7],
    /// A new harmony instead of the old one prolonged.
    pub change: u32,
    /// A new harmony that enters inside a bar.
    pub change_inside: u32,
    /// The dominant going to the supertonic or the subdominant.
    pub weak_motion: u32,
    /// A first or last harmony that is not the tonic.
    pub frame: u32,
    /// The third in the bass.
    pub third_in_bass: u32,
    /// The fifth in the bass.
    pub fifth_in_bass: u32,
    /// The third doubled.
    pub doubled_third: u32,
    /// Third and fifth without the root.
    pub rootless: u32,
    /// A note on a weak beat that only embellishes.
    pub weak_figure: u32,
    /// A note on a strong beat that only embellishes.
    pub accented_figure: u32,
    /// A note held into a dissonance.
    pub suspension: u32,
    /// Up to this much above the best reading, another one is kept as an alternative.
    pub alternatives: u32,
}

impl PerBar {
    /// Whether a second harmony may enter at a place within a bar: on a main beat after the first,
    /// and in bars of three not so late that only a quarter is left to it.
    pub(super) fn may_enter(self, meter: Meter, within: Duration) -> bool {
        let is_too_late = meter.is_triple() && within + Duration::QUARTER >= meter.bar_length();
        match self {
            Self::One => false,
            Self::Two => !is_too_late && meter.main_beats().skip(1).any(|beat| beat == within),
        }
    }
}

impl Costs {
    /// How readily a harmony on a scale degree (1 to 7) is thought of.
    pub fn degree(&self, degree: u8) -> u32 {
        let index = usize::from(degree.clamp(1, 7) - 1);
        self.degrees[index]
    }
}

impl Plan {
    /// The harmonies of a mode; those of major or minor where the school lists none for it.
    pub fn numerals(&self, mode: Mode) -> impl Iterator<Item = &Numeral> {
        let own = self.vocabulary.get(&Spelt(mode));
        let like = if mode.is_minor_like() { Mode::Minor } else { Mode::Major };
        let list = own.or_else(|| self.vocabulary.get(&Spelt(like)));
        list.into_iter().flatten().map(|spelt| &spelt.0)
    }
}

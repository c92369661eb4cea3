//! What makes one way of writing better than another: numbers of a rulebook. A ranking, never a
//! verdict: the least sum is the path of least resistance. Knows no notes.
//!
//! # Switches
//! - `caution`: what a caution weighs in a way of writing
//!   - *a whole number*: the more, the rarer it is among the best (common practice)
//! - `advice`: what a piece of advice weighs
//!   - *a whole number*: the more, the rarer it is among the best (common practice)
//! - `leap`: what a leap weighs for every step that it is wider than a second
//!   - *a whole number*: the more, the rather the line goes by step (common practice)
//! - `repeated-note`: what a note weighs that is struck again
//!   - *a whole number*: the more, the rather the line moves (common practice)
//! - `turn`: what a step weighs that turns back
//!   - *a whole number*: the more, the rather a line goes on in its direction (common practice)
//! - `similar-motion`: what it weighs if both voices move the same way
//!   - *a whole number*: the more, the rather they move apart (common practice)
//! - `oblique-motion`: what it weighs if one voice stays
//!   - *a whole number*: the more, the rather both move (common practice)
//! - `inner-perfect`: what a perfect consonance weighs that is neither in the first nor in the last
//!   bar
//!   - *a whole number*: the more, the rather thirds and sixths are written (Fux 1725)

use serde::Deserialize;

/// What makes one way of writing better than another; nothing where nothing is said.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields, default)]
pub struct Ranking {
    /// A caution.
    pub caution: u32,
    /// A piece of advice.
    pub advice: u32,
    /// A leap, for every step that it is wider than a second.
    pub leap: u32,
    /// A note struck again.
    pub repeated_note: u32,
    /// A step that turns back.
    pub turn: u32,
    /// Both voices moving the same way.
    pub similar_motion: u32,
    /// One voice staying.
    pub oblique_motion: u32,
    /// A perfect consonance that is neither in the first nor in the last bar.
    pub inner_perfect: u32,
}

//! Which figures a school admits: data of a rulebook. Knows no notes.
//!
//! # Switches
//! - `weak`: which notes that only embellish may stand on a weak beat; where others stand, there is
//!   none in first species
//!   - `none`: every note makes a consonance (all, in first species)
//!   - `passing`: passing notes (Open Music Theory, Grove 1883 and Cherubini 1835, in second species;
//!     Fux 1725, in second and third)
//!   - `passing-and-quick-neighbours`: passing notes, and neighbours no longer than a quarter (Open
//!     Music Theory, in third species; Fux 1725, in fifth)
//!   - `passing-and-neighbours`: passing notes and neighbours (Lavignac 1895; Lehmann 1907; an
//!     older American manual)
//! - `strong`: which may be struck on a strong beat
//!   - `none`: none (Open Music Theory; Fux 1725)
//!   - `passing`: passing notes, as a last resort (Bridge 1877; Cherubini 1835)
//!   - `within-one-harmony`: passing notes and neighbours within one prolonged harmony (common
//!     practice)
//! - `changing-notes`: whether a dissonance on a weak beat may skip a third and return
//!   - `never`: it goes on by step (all, in second species)
//!   - `falling`: step down, third down, step up, step up (Fux 1725; from memory)
//!   - `both-ways`: the same, also rising (Open Music Theory)
//!   - `skipping`: a passing note may skip a third in its direction and come back by step to the
//!     note that it was bound for (Lehmann 1907)
//! - `double-neighbour`: whether both neighbours of a note may stand between it and its return
//!   - `no`: only one at a time (common practice, in second species)
//!   - `yes`: both, one after the other (Open Music Theory; Lehmann 1907)
//! - `decorated`: whether something may stand between a suspension and its resolution
//!   - `no`: nothing (all, in fourth species)
//!   - `yes`: a consonance that is leapt to, two eighths, or the resolution itself, if it is reached
//!     on the next main beat all the same (Fux 1725; Lehmann 1907)
//! - `rising`: whether a held dissonance may resolve upward
//!   - `never`: it goes down by step (Fux 1725; Open Music Theory; Cherubini 1835; Grove 1883)
//!   - `leading-note`: a leading note may rise to the tonic (Bridge 1877; Lehmann 1907)

use serde::Deserialize;

/// Which figures a school admits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Figures {
    /// On weak beats.
    pub weak: WeakFigures,
    /// On strong beats.
    pub strong: StrongFigures,
    /// Dissonances that skip a third and return.
    pub changing_notes: ChangingNotes,
    /// Both neighbours of a note, one after the other.
    pub double_neighbour: Admitted,
    /// Notes between a suspension and its resolution.
    pub decorated: Admitted,
    /// Held dissonances that resolve upward.
    pub rising: Rising,
}

/// Which figures may stand on weak beats.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum WeakFigures {
    /// None.
    None,
    /// Passing notes.
    Passing,
    /// Passing notes, and neighbours no longer than a quarter.
    PassingAndQuickNeighbours,
    /// Passing notes and neighbours.
    PassingAndNeighbours,
}

/// Which figures may stand on strong beats.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum StrongFigures {
    /// None but suspensions.
    None,
    /// Passing notes.
    Passing,
    /// Passing notes and neighbours within one prolonged harmony.
    WithinOneHarmony,
}

/// Whether a dissonance may skip a third and return.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ChangingNotes {
    /// It goes on by step.
    Never,
    /// Step down, third down, step up, step up.
    Falling,
    /// The same, also rising.
    BothWays,
    /// Step, third in the same direction, step back.
    Skipping,
}

/// Whether a school admits something.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Admitted {
    /// It does not.
    No,
    /// It does.
    Yes,
}

/// Whether a held dissonance may resolve upward.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Rising {
    /// It goes down.
    Never,
    /// A leading note may rise to the tonic.
    LeadingNote,
}

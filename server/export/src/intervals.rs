//! The intervals between the voices, as figures show them. Knows no format.

use bicinium_analysis::score::Score;
use bicinium_theory::{Duration, Interval};

/// An interval and how long it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Standing {
    /// When it begins.
    pub at: Duration,
    /// When one of the voices goes on.
    pub until: Duration,
    /// From the lower voice of the page to the upper one.
    pub interval: Interval,
}

/// The interval at every instant at which a note enters while both voices sound.
pub(crate) fn of(score: &Score) -> Vec<Standing> {
    let lines = &score.lines;
    let all = lines.upper.events.iter().chain(&lines.lower.events);
    let mut onsets: Vec<_> = all.map(|event| event.onset).collect();
    onsets.sort_unstable();
    onsets.dedup();
    let standing = |at: Duration| {
        let upper = lines.upper.sounding_at(at)?;
        let lower = lines.lower.sounding_at(at)?;
        let interval = Interval::between(lower.pitch()?, upper.pitch()?);
        Some(Standing { at, until: upper.end().min(lower.end()), interval })
    };
    onsets.into_iter().filter_map(standing).collect()
}

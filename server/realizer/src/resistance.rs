//! How much resistance a way of writing meets: the path of least resistance goes by step before it
//! leaps, by contrary motion before similar, over imperfect before perfect consonances. The weights
//! are those of the rulebook. A ranking, never a verdict.

use bicinium_analysis::Level;
use bicinium_analysis::judge::Step;
use bicinium_analysis::rulebook::Ranking;
use bicinium_analysis::score::VoiceId;
use bicinium_theory::{Direction, Interval, Motion};

/// What a breach weighs that is no fault.
pub(crate) fn of_level(ranking: &Ranking, level: Level) -> u32 {
    match level {
        Level::Caution => ranking.caution,
        Level::Advice => ranking.advice,
        Level::Notation | Level::Fault | Level::Unfinished => 0,
    }
}

/// What the moment costs by its notes alone.
pub(crate) fn of_notes(ranking: &Ranking, step: &Step<'_>) -> u32 {
    let lines = step.setting.written().map(|voice| line(ranking, step, voice)).sum::<u32>();
    lines + motion(ranking, step) + consonance(ranking, step)
}

/// Steps before leaps, small leaps before large ones; a line that goes on by step before one that
/// turns.
fn line(ranking: &Ranking, step: &Step<'_>, voice: VoiceId) -> u32 {
    let Some((_, _, interval)) = step.entered(voice) else { return 0 };
    let turns = step.line(voice).interval(1).is_some_and(|before| turns(before, interval));
    match interval.number() {
        1 => ranking.repeated_note,
        2 => ranking.turn * u32::from(turns && interval.is_step()),
        number => ranking.leap * (u32::from(number) - 1),
    }
}

fn turns(before: Interval, after: Interval) -> bool {
    before.direction() != Direction::Level && before.direction() != after.direction()
}

fn motion(ranking: &Ranking, step: &Step<'_>) -> u32 {
    match step.progression().map(|way| way.motion()) {
        Some(Motion::Similar | Motion::Parallel) => ranking.similar_motion,
        Some(Motion::Oblique) => ranking.oblique_motion,
        _ => 0,
    }
}

/// Perfect consonances inside cost; they are at home at the beginning and the end.
fn consonance(ranking: &Ranking, step: &Step<'_>) -> u32 {
    let is_inside = step.bar() > 0 && !step.is_last_bar();
    let is_perfect = step.sounded().is_some_and(|sounded| sounded.perfect().is_some());
    ranking.inner_perfect * u32::from(is_inside && is_perfect)
}

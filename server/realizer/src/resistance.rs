//! How much resistance a way of writing meets: the path of least resistance goes by step before it
//! leaps, by contrary motion before similar, over imperfect before perfect consonances. A ranking,
//! never a verdict. Common practice; imperfect before perfect consonances after Fux 1725.

use bicinium_analysis::Level;
use bicinium_analysis::judge::Step;
use bicinium_analysis::score::VoiceId;
use bicinium_theory::{Direction, Interval, Motion};

/// What a caution weighs against the smoothness of lines.
const CAUTION: u32 = 20;
/// What a piece of advice weighs.
const ADVICE: u32 = 5;

/// What a breach weighs that is no fault.
pub(crate) fn of_level(level: Level) -> u32 {
    match level {
        Level::Caution => CAUTION,
        Level::Advice => ADVICE,
        Level::Notation | Level::Fault | Level::Unfinished => 0,
    }
}

/// What the moment costs by its notes alone.
pub(crate) fn of_notes(step: &Step<'_>) -> u32 {
    let lines = step.setting.written().map(|voice| line(step, voice)).sum::<u32>();
    lines + motion(step) + consonance(step)
}

/// Steps before leaps, small leaps before large ones; a line that goes on by step before one that
/// turns.
fn line(step: &Step<'_>, voice: VoiceId) -> u32 {
    let Some((_, _, interval)) = step.entered(voice) else { return 0 };
    let turns = step.line(voice).interval(1).is_some_and(|before| turns(before, interval));
    let size = match interval.number() {
        2 => 0,
        1 => 3,
        number => u32::from(number) - 1,
    };
    size + u32::from(turns && interval.is_step())
}

fn turns(before: Interval, after: Interval) -> bool {
    before.direction() != Direction::Level && before.direction() != after.direction()
}

fn motion(step: &Step<'_>) -> u32 {
    match step.progression().map(|way| way.motion()) {
        Some(Motion::Similar | Motion::Parallel) => 2,
        Some(Motion::Oblique) => 1,
        _ => 0,
    }
}

/// Perfect consonances inside cost; they are at home at the beginning and the end.
fn consonance(step: &Step<'_>) -> u32 {
    let is_inside = step.bar() > 0 && !step.is_last_bar();
    let is_perfect = step.sounded().is_some_and(|sounded| sounded.perfect().is_some());
    u32::from(is_inside && is_perfect)
}

//! Which notes of a bar share a beam, and how many beams a note has. Knows lengths and places in the bar, not
//! how a beam is drawn or written.

use bicinium_analysis::score::{Setting, Sound};
use bicinium_theory::{Duration, NoteValue};

use crate::written::Sign;

/// How many beams or flags a note has.
pub(crate) fn count(value: NoteValue) -> u8 {
    match value {
        NoteValue::Breve | NoteValue::Whole | NoteValue::Half | NoteValue::Quarter => 0,
        NoteValue::Eighth => 1,
        NoteValue::Sixteenth => 2,
        NoteValue::ThirtySecond => 3,
        NoteValue::SixtyFourth => 4,
    }
}

/// For every sign of a bar the number of its beam; what has none stands alone.
pub(crate) fn groups(signs: &[Sign], setting: &Setting) -> Vec<Option<usize>> {
    let unit = unit(setting).ticks().max(1);
    let cell = |sign: &Sign| setting.within_bar(sign.onset).ticks() / unit;
    let is_short =
        |sign: &Sign| matches!(sign.sound, Sound::Note(_)) && count(sign.length.value) > 0;
    let mut numbers = vec![None; signs.len()];
    let runs = signs.chunk_by(|a, b| is_short(a) && is_short(b) && cell(a) == cell(b));
    let mut from = 0;
    for (number, run) in runs.enumerate() {
        if run.len() > 1 {
            numbers[from..from + run.len()].fill(Some(number));
        }
        from += run.len();
    }
    numbers
}

/// The stretch of a bar that a beam does not leave (common practice): a half note where halves or longer
/// notes are counted, three eighths in compound meters, else a beat.
fn unit(setting: &Setting) -> Duration {
    let meter = setting.meter;
    match (meter.unit, meter.beats) {
        (1 | 2, _) => Duration::HALF,
        (8, 3 | 6 | 9 | 12) => Duration::EIGHTH * 3,
        (16, 3 | 6 | 9 | 12) => Duration::from_ticks(Duration::EIGHTH.ticks() / 2) * 3,
        _ => Duration::QUARTER,
    }
}

//! The words that findings share: how places, notes and lists are called. Knows no rules.

use bicinium_theory::{Duration, Interval};

use crate::judge::Heard;
use crate::score::Setting;

/// "bar 3" for a moment at the beginning of a bar, "bar 3, beat 2" on a later beat, "bar 3, after
/// beat 2" between beats.
pub fn place(setting: &Setting, onset: Duration) -> String {
    let bar = setting.bar_of(onset) + 1;
    let within = setting.within_bar(onset);
    let (beat, rest) = setting.meter.beat(within);
    match (within == Duration::ZERO, rest == Duration::ZERO) {
        (true, _) => format!("bar {bar}"),
        (false, true) => format!("bar {bar}, beat {beat}"),
        (false, false) => format!("bar {bar}, after beat {beat}"),
    }
}

/// "F#3 in bar 3".
pub fn note_in(setting: &Setting, note: Heard) -> String {
    format!("{} in {}", note.pitch, place(setting, note.onset))
}

/// "A4 to F4".
pub fn from_to(from: Heard, to: Heard) -> String {
    format!("{} to {}", from.pitch, to.pitch)
}

/// "a major tenth", "an octave" with its article.
pub fn an_interval(interval: Interval) -> String {
    with_article(&interval.words())
}

/// A noun with "a" or "an" before it.
pub fn with_article(noun: &str) -> String {
    let vowel = noun.starts_with(['a', 'e', 'i', 'o', 'u']) && !noun.starts_with("uni");
    format!("{} {noun}", if vowel { "an" } else { "a" })
}

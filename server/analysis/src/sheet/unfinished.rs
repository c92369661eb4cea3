//! What is still to be written in an exercise, said once for the whole of it.

use bicinium_grammar::TextRange;

use crate::finding::{Finding, Level};
use crate::score::{Score, Sound, VoiceId};

/// The name under which an exercise that is not finished is reported.
pub const UNFINISHED: &str = "unfinished";

/// Says what is still to be written; `None` if nothing is.
pub(super) fn finding(score: &Score, head: TextRange) -> Option<Finding> {
    let holes = places(score, Sound::Hole);
    let blanks = places(score, Sound::Blank);
    let missing = missing_bars(score);
    let parts: Vec<_> = [
        (!holes.is_empty()).then(|| format!("notes to be chosen in {}", bars(&holes))),
        (!blanks.is_empty()).then(|| format!("nothing written yet in {}", bars(&blanks))),
        missing,
    ]
    .into_iter()
    .flatten()
    .collect();
    if parts.is_empty() {
        return None;
    }
    let message = format!("Still to be written: {}.", parts.join("; "));
    Some(Finding::about_text(UNFINISHED, Level::Unfinished, head, message))
}

/// The bars, counted from 1, in which a voice has such a thing.
fn places(score: &Score, sound: Sound) -> Vec<u32> {
    let events = VoiceId::BOTH.iter().flat_map(|voice| &score.lines[*voice].events);
    let open = events.filter(|event| event.sound == sound);
    let mut bars: Vec<_> = open.map(|event| score.setting.bar_of(event.onset) + 1).collect();
    bars.sort_unstable();
    bars.dedup();
    bars
}

fn missing_bars(score: &Score) -> Option<String> {
    (score.setting.bars == 0).then(|| "there are no bars yet".to_owned())
}

/// "bar 3", "bars 3 and 5", "bars 2 to 6 and 8".
fn bars(numbers: &[u32]) -> String {
    let spans = spans(numbers);
    let names: Vec<_> = spans.iter().map(|span| name(*span)).collect();
    let noun = if numbers.len() == 1 { "bar" } else { "bars" };
    match names.split_last() {
        Some((last, [])) => format!("{noun} {last}"),
        Some((last, first)) => format!("{noun} {} and {last}", first.join(", ")),
        None => noun.to_owned(),
    }
}

fn spans(numbers: &[u32]) -> Vec<(u32, u32)> {
    let mut spans: Vec<(u32, u32)> = Vec::new();
    for number in numbers {
        match spans.last_mut() {
            Some(last) if last.1 + 1 == *number => last.1 = *number,
            _ => spans.push((*number, *number)),
        }
    }
    spans
}

fn name((first, last): (u32, u32)) -> String {
    match last - first {
        0 => first.to_string(),
        1 => format!("{first}, {last}"),
        _ => format!("{first} to {last}"),
    }
}

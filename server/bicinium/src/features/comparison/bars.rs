//! Which bars of which voice changed, and how. Must not know any rule.

use bicinium_analysis::Exercise;
use bicinium_analysis::score::{Event, Sound, VoiceId};
use bicinium_analysis::sheet::Placed;
use bicinium_theory::Duration;

use crate::features::words::list;

/// As many notes are told one by one; where more differ, the bar is told as a whole.
const ONE_BY_ONE: usize = 3;

/// What begins in a bar, and how far into it; `None` goes on from before.
type Begun = (Duration, Option<Sound>);

/// All that begins in a bar.
type Content = Vec<Begun>;

/// A version of an exercise.
type Version<'a> = (&'a Placed, &'a Exercise);

/// What changed in the music, with the bar, counted from 1.
pub(super) fn changes(old: Version<'_>, new: Version<'_>) -> Vec<(u32, String)> {
    let of_voice = |voice| {
        let count = |version: Version<'_>| version.1.score.setting.bars_of[voice];
        let bars = 0..count(old).max(count(new));
        bars.filter_map(move |bar| Some((bar + 1, change(old, new, voice, bar)?)))
    };
    VoiceId::BOTH.into_iter().flat_map(of_voice).collect()
}

fn change(old: Version<'_>, new: Version<'_>, voice: VoiceId, bar: u32) -> Option<String> {
    let (before, after) = (content(old.1, voice, bar), content(new.1, voice, bar));
    let name = format!("in the {} voice", voice.name());
    match (&before, &after) {
        _ if before == after => None,
        (None, Some(_)) => Some(format!("added {name}: {}", written(new, voice, bar))),
        (Some(_), None) => Some(format!("taken out {name}: {}", written(old, voice, bar))),
        (Some(before), Some(after)) => match notes(before, after) {
            Some(words) => Some(format!("{words} {name}")),
            None => Some(format!(
                "{} became {} {name}",
                written(old, voice, bar),
                written(new, voice, bar)
            )),
        },
        (None, None) => None,
    }
}

/// What a voice has in a bar; `None` if it has no such bar.
fn content(exercise: &Exercise, voice: VoiceId, bar: u32) -> Option<Content> {
    let setting = &exercise.score.setting;
    if bar >= setting.bars_of[voice] {
        return None;
    }
    let (start, end) = (setting.bar_start(bar), setting.bar_start(bar + 1));
    let inside = exercise.score.lines[voice].events.iter();
    let inside = inside.filter(|event| event.onset < end && event.end() > start);
    let place = |event: &Event| {
        if event.onset < start {
            (Duration::ZERO, (event.sound == Sound::Blank).then_some(Sound::Blank))
        } else {
            (event.onset - start, Some(event.sound))
        }
    };
    Some(inside.map(place).collect())
}

/// "A3 became F3", if only some notes differ and the rhythm is the same.
fn notes(before: &Content, after: &Content) -> Option<String> {
    let is_same_rhythm = before.len() == after.len()
        && before
            .iter()
            .zip(after)
            .all(|(old, new)| old.0 == new.0 && old.1.is_some() == new.1.is_some());
    let differing: Vec<_> = before.iter().zip(after).filter(|(old, new)| old != new).collect();
    if !is_same_rhythm || differing.len() > ONE_BY_ONE {
        return None;
    }
    let told = |((_, old), (_, new)): &(&Begun, &Begun)| {
        Some(format!("{} became {}", name((*old)?)?, name((*new)?)?))
    };
    differing.iter().map(told).collect::<Option<Vec<_>>>().map(|all| list(&all))
}

/// What sounds, in words; `None` where the bar is better told as a whole.
fn name(sound: Sound) -> Option<String> {
    match sound {
        Sound::Note(pitch) => Some(pitch.to_string()),
        Sound::Rest => Some("a rest".to_owned()),
        Sound::Hole => Some("a note not chosen".to_owned()),
        Sound::Held | Sound::Blank => None,
    }
}

/// A bar as it is written in the sheet.
fn written((block, exercise): Version<'_>, voice: VoiceId, bar: u32) -> String {
    let text = block.judged.tree.text();
    let bars = &exercise.score.lines[voice].bars;
    let range = usize::try_from(bar).ok().and_then(|bar| bars.get(bar));
    let range = range.map(|range| usize::from(range.start())..usize::from(range.end()));
    let signs = range.and_then(|range| text.get(range)).unwrap_or_default();
    let signs = signs.split_whitespace().collect::<Vec<_>>().join(" ");
    if signs.is_empty() { "a blank bar".to_owned() } else { signs }
}

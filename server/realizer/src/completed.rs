//! An exercise with both voices to its end: bars that a row does not have yet are blank.

use bicinium_analysis::score::{Event, Pair, Score, Sound, VoiceId};

/// The score with blank bars where a voice ends before the other; a voice without a row stays
/// away. What is added is written, as far as the text goes, where the voice is named.
pub fn completed(score: &Score) -> Score {
    let mut score = score.clone();
    let setting = &mut score.setting;
    let bars = setting.bars;
    let is_named = Pair::from_fn(|voice| !score.lines[voice].head.is_empty());
    for voice in VoiceId::BOTH.into_iter().filter(|voice| is_named[*voice]) {
        let line = &mut score.lines[voice];
        let missing = setting.bars_of[voice]..bars;
        let blank = |bar: u32| Event {
            onset: setting.bar_start(bar),
            duration: setting.bar_length(),
            sound: Sound::Blank,
            range: line.head,
        };
        let added: Vec<_> = missing.map(blank).collect();
        line.bars.extend(added.iter().map(|event| event.range));
        line.events.extend(added);
    }
    setting.bars_of = Pair::from_fn(|voice| if is_named[voice] { bars } else { 0 });
    score
}

//! What is too much for one exercise: beyond it nothing is judged, and that is said, instead of
//! letting the writer wait. Knows amounts, not music.

use bicinium_grammar::TextRange;

use crate::finding::{Finding, Level};
use crate::score::{Score, VoiceId};

/// The name under which an exercise that is too long is reported.
pub const TOO_LONG: &str = "too-long";
/// How many notes, rests and holes each voice of an exercise may have.
const MOST_EVENTS: usize = 10_000;
/// How many bars an exercise may have.
const MOST_BARS: u32 = 5_000;

/// Takes the music out of an exercise that is too long, and says so; `None` if it is not.
pub(super) fn cut(score: &mut Score, head: TextRange) -> Option<Finding> {
    let events = VoiceId::BOTH.map(|voice| score.lines[voice].events.len());
    let most = events.into_iter().max().unwrap_or(0);
    if most <= MOST_EVENTS && score.setting.bars <= MOST_BARS {
        return None;
    }
    let message = format!(
        "This exercise is too long to be judged: it has {} bars and up to {most} notes in a voice. \
         An exercise may have {MOST_BARS} bars and {MOST_EVENTS} notes in a voice; begin a new one.",
        score.setting.bars
    );
    for voice in VoiceId::BOTH {
        score.lines[voice].events.clear();
        score.lines[voice].bars.clear();
        score.setting.bars_of[voice] = 0;
    }
    score.setting.bars = 0;
    score.harmonies.clear();
    score.licences.clear();
    Some(Finding::about_text(TOO_LONG, Level::Notation, head, message))
}

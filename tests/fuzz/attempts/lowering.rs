//! Every exercise becomes music whose notes follow each other without a gap, each of them written where the score says.

use std::sync::Arc;

use bicinium_analysis::score::{Line, Score, VoiceId};
use bicinium_analysis::{Sheet, Shelf};
use bicinium_grammar::TextRange;

/// Makes music of a text.
pub fn attempt(text: &str) {
    if text.len() > 4_000 {
        return;
    }
    let snapshot = Sheet::new(text, Arc::new(Shelf::default())).snapshot();
    for (_, block, exercise) in snapshot.exercises() {
        let own = block.judged.tree.text();
        let score = &exercise.score;
        for voice in VoiceId::BOTH {
            lasts(score, &score.lines[voice]);
            is_written(&own, &score.lines[voice]);
        }
        for harmony in &score.harmonies {
            assert!(harmony.onset + harmony.duration <= score.setting.length().max(harmony.onset));
            assert!(!slice(&own, harmony.range).is_empty());
        }
    }
}

/// The notes of a voice fill its bars.
fn lasts(score: &Score, line: &Line) {
    let mut end = score.setting.bar_start(0);
    for event in &line.events {
        assert_eq!(event.onset, end, "{:?}", line.events);
        assert!(event.end() > event.onset);
        end = event.end();
    }
    assert!(end <= score.setting.length());
}

/// Every note that is known stands in the text as it is named.
fn is_written(text: &str, line: &Line) {
    for event in &line.events {
        let written = slice(text, event.range);
        let Some(pitch) = event.pitch() else { continue };
        let (letter, octave) = (pitch.letter().to_string(), pitch.octave().to_string());
        assert!(written.to_uppercase().starts_with(&letter), "{written} as {pitch}");
        assert!(written.ends_with(&octave), "{written} as {pitch}");
    }
}

fn slice(text: &str, range: TextRange) -> &str {
    text.get(usize::from(range.start())..usize::from(range.end())).expect("a place of the text")
}

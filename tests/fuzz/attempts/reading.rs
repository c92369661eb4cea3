//! Every exercise is heard in one way: each note of it does something, harmonies follow each other, and what else a bar
//! could be is never likelier than what it is taken for.

use std::sync::Arc;

use bicinium_analysis::reading::Reading;
use bicinium_analysis::score::{Score, VoiceId};
use bicinium_analysis::{Sheet, Shelf};

/// Hears a text as each built-in school does.
pub fn attempt(text: &str) {
    if text.len() > 2_000 {
        return;
    }
    let shelf = Arc::new(Shelf::default());
    for head in ["rulebook modal\n", "rulebook tonal\n"] {
        let snapshot = Sheet::new(&format!("{head}{text}"), shelf.clone()).snapshot();
        for (_, _, exercise) in snapshot.exercises() {
            all_notes_do_something(&exercise.score, &exercise.verdict.reading);
            harmonies_follow(&exercise.score, &exercise.verdict.reading);
        }
    }
}

fn all_notes_do_something(score: &Score, reading: &Reading) {
    for voice in VoiceId::BOTH {
        let events = score.lines[voice].events.iter();
        let written = events.filter_map(|event| Some((event.onset, event.pitch()?)));
        let heard = reading.functions[voice].iter().map(|it| (it.note.onset, it.note.pitch));
        assert_eq!(written.collect::<Vec<_>>(), heard.collect::<Vec<_>>());
    }
}

fn harmonies_follow(score: &Score, reading: &Reading) {
    let mut before = score.setting.bar_start(0);
    for stretch in &reading.stretches {
        assert!(before <= stretch.onset && stretch.onset < stretch.end, "{stretch:?}");
        before = stretch.end;
        assert!(stretch.prolonged_from.is_none_or(|from| from < stretch.onset), "{stretch:?}");
        let margins: Vec<_> = stretch.alternatives.iter().map(|it| it.margin).collect();
        assert!(margins.is_sorted(), "{stretch:?}");
        let others = &stretch.alternatives;
        assert!(others.iter().all(|it| it.harmony != stretch.harmony), "{stretch:?}");
    }
    let length = score.setting.length();
    assert!(reading.stretches.last().is_none_or(|last| last.end <= length));
}

//! Formatting twice is formatting once, and changes nothing of what a sheet says or of what is said about it.

use std::sync::Arc;

use bicinium_analysis::score::VoiceId;
use bicinium_analysis::{Sheet, Shelf};
use bicinium_grammar::format;

/// Formats a text.
pub fn attempt(text: &str) {
    let formatted = format(text);
    assert_eq!(format(&formatted), formatted);
    if text.len() <= 2_000 {
        assert_eq!(said(&formatted), said(text), "{text}\nbecame\n{formatted}");
    }
}

/// The music of a sheet and what is found in it, apart from where it stands.
fn said(text: &str) -> String {
    let snapshot = Sheet::new(text, Arc::new(Shelf::default())).snapshot();
    let music = snapshot.exercises().map(|(number, _, exercise)| {
        let events = |voice| exercise.score.lines[voice].events.iter();
        let sounds = VoiceId::BOTH
            .map(|voice| events(voice).map(|it| (it.duration, it.sound)).collect::<Vec<_>>());
        format!("{number} {:?} {sounds:?}\n", exercise.score.setting)
    });
    let found =
        snapshot.findings().map(|it| format!("{:?} {}\n", it.finding.place, it.finding.message));
    music.chain(found).collect()
}

//! The state of an exercise in one line: what stands against it, what is accepted, what is open.

use std::ops::Range;

use bicinium_analysis::score::{Event, Score, Sound, VoiceId};
use bicinium_analysis::sheet::Judged;
use bicinium_analysis::{Exercise, Finding, Level};

use crate::features::words::count;

/// "clean", "2 faults · 1 caution", "nothing wrong so far · 3 holes".
pub(super) fn of(block: &Judged, exercise: &Exercise) -> String {
    let findings = &block.findings;
    let wrong = wrong(findings);
    let open = open(&exercise.score, &block.tree.text());
    let verdict = match (wrong.is_empty(), open.is_empty()) {
        (true, true) => vec!["clean".to_owned()],
        (true, false) => vec!["nothing wrong so far".to_owned()],
        (false, _) => wrong,
    };
    let accepted = findings.iter().filter(|finding| !finding.stands()).count();
    let accepted = told(accepted, "finding accepted", "findings accepted");
    verdict.into_iter().chain(accepted).chain(open).collect::<Vec<_>>().join(" · ")
}

/// What stands against the exercise, the gravest first. Taste does not.
fn wrong(findings: &[Finding]) -> Vec<String> {
    let kinds = [
        (Level::Notation, "problem with the notation", "problems with the notation"),
        (Level::Fault, "fault", "faults"),
        (Level::Caution, "caution", "cautions"),
    ];
    let told = kinds.into_iter().map(|(level, one, many)| {
        let found = findings.iter().filter(|found| found.level == level && found.stands());
        told(found.count(), one, many)
    });
    told.flatten().collect()
}

/// What is still to be written. A note that cannot be read is no hole in the eyes of the writer.
fn open(score: &Score, text: &str) -> Vec<String> {
    if score.setting.bars == 0 {
        return vec!["nothing written yet".to_owned()];
    }
    let events = VoiceId::BOTH.iter().flat_map(|voice| &score.lines[*voice].events);
    let is_written = |event: &&Event| text.get(Range::<usize>::from(event.range)) == Some("?");
    let holes = events.clone().filter(|event| event.sound == Sound::Hole).filter(is_written);
    let blanks = events.filter(|event| event.sound == Sound::Blank);
    let told =
        [told(holes.count(), "hole", "holes"), told(blanks.count(), "blank bar", "blank bars")];
    told.into_iter().flatten().collect()
}

fn told(number: usize, one: &str, many: &str) -> Option<String> {
    (number > 0).then(|| count(number, one, many))
}

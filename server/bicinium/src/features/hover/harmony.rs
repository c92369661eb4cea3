//! What is said about a harmony: its notes, how far it is prolonged, what it follows, and what the
//! bar could stand for instead.

use bicinium_analysis::Exercise;
use bicinium_analysis::reading::{Alternative, Harmony, Reading, Stretch};
use bicinium_analysis::rules::wording;
use bicinium_analysis::score::{Setting, WrittenHarmony};
use bicinium_theory::{Duration, Member};

use super::Section;

/// The harmony at an instant in one line; nothing where no harmony is implied.
pub(in crate::features) fn at(exercise: &Exercise, instant: Duration) -> Option<String> {
    let reading = &exercise.verdict.reading;
    let stretch = reading.stretch_at(instant)?;
    let harmony = reading.vocabulary.get(stretch.harmony)?;
    let parts = [
        Some(format!("{} ({})", stretch.numeral, notes(harmony))),
        prolongation(&exercise.score.setting, stretch),
        succession(reading, stretch),
        alternatives(&stretch.alternatives),
    ];
    Some(parts.into_iter().flatten().collect::<Vec<_>>().join("; "))
}

/// What is said about a numeral of the harmony row.
pub(super) fn say(exercise: &Exercise, written: &WrittenHarmony) -> Vec<Section> {
    let setting = &exercise.score.setting;
    let place = wording::place(setting, written.onset);
    let mut body = vec![Section::Heading(format!("{}, written for {place}", written.numeral))];
    match at(exercise, written.onset) {
        Some(text) => body.push(Section::Fact("harmony", text)),
        None => body.push(Section::Text(format!(
            "The rulebook {} implies no harmony; only the intervals count, and this row is not \
             asked.",
            exercise.rulebook.name
        ))),
    }
    body.push(Section::Text("What is written here binds the reading of the bar.".to_owned()));
    body
}

fn notes(harmony: &Harmony) -> String {
    let notes = harmony.chord.members().map(|(_, note)| note.to_string());
    notes.collect::<Vec<_>>().join(" ")
}

fn prolongation(setting: &Setting, stretch: &Stretch) -> Option<String> {
    let from = stretch.prolonged_from?;
    Some(format!("prolonged from bar {}", setting.bar_of(from) + 1))
}

/// A dominant that does not go to the tonic keeps the music open.
fn succession(reading: &Reading, stretch: &Stretch) -> Option<String> {
    let index = reading.stretches.iter().position(|known| known.onset == stretch.onset)?;
    let before = reading.stretches.get(index.checked_sub(1)?)?;
    let leads = reading.vocabulary.get(before.harmony)?.numeral.degree == 5;
    let numeral = stretch.numeral;
    let evades = match numeral.degree {
        6 => true,
        4 => numeral.inversion == bicinium_theory::Inversion::First,
        _ => false,
    };
    (leads && evades)
        .then(|| format!("{}–{numeral} is deceptive: the end is put off", before.numeral))
}

fn alternatives(alternatives: &[Alternative]) -> Option<String> {
    let names: Vec<_> = alternatives.iter().map(|other| other.numeral.to_string()).collect();
    let (last, first) = names.split_last()?;
    let choice =
        if first.is_empty() { last.clone() } else { format!("{} or {last}", first.join(", ")) };
    Some(format!("could also be {choice}"))
}

/// "the third of V".
pub(super) fn member(stretch: &Stretch, member: Member) -> String {
    format!("the {} of {}", member.name(), stretch.numeral)
}

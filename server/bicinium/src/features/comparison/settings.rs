//! Which settings of an exercise changed. Must not know any note.

use bicinium_analysis::Exercise;

/// What changed, a line each.
pub(super) fn changes(old: &Exercise, new: &Exercise) -> Vec<String> {
    let (before, after) = (all(old), all(new));
    let changed = before.into_iter().zip(after).filter(|(old, new)| old != new);
    changed.map(|((what, old), (_, new))| format!("The {what} {old} became {new}.")).collect()
}

fn all(exercise: &Exercise) -> [(&'static str, String); 7] {
    let setting = &exercise.score.setting;
    let or_none = |text: Option<String>| text.unwrap_or_else(|| "none".to_owned());
    let key = setting.key;
    [
        ("title", or_none(exercise.title.as_ref().map(|title| format!("\"{title}\"")))),
        ("name of the writer", or_none(exercise.by.as_ref().map(|by| format!("\"{by}\"")))),
        ("key", format!("{} {}", key.tonic, key.mode.name())),
        ("meter", format!("{}/{}", setting.meter.beats, setting.meter.unit)),
        ("species", or_none(setting.species.map(|number| number.to_string()))),
        ("rulebook", exercise.rulebook.name.clone()),
        ("cantus", or_none(setting.cantus.map(|voice| format!("in the {} voice", voice.name())))),
    ]
}

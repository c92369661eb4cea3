//! Whether an exercise is what was set: its key, meter, species, rulebook and cantus. Must not know what
//! it costs if it is not.

use std::path::Path;

use bicinium_analysis::Exercise;
use bicinium_analysis::rulebook::FILE_END;
use bicinium_analysis::score::{Definition, Score, VoiceId};
use bicinium_analysis::words::joined;
use bicinium_theory::{Interval, Key};
use serde::Serialize;

use crate::assignment::Task;

/// Something that is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Aspect {
    /// The melody that is given.
    Cantus,
    /// Tonic and mode.
    Key,
    /// The meter.
    Meter,
    /// The species.
    Species,
    /// The rulebook.
    Rulebook,
}

impl Aspect {
    /// All of them.
    pub const ALL: [Self; 5] =
        [Self::Cantus, Self::Key, Self::Meter, Self::Species, Self::Rulebook];

    /// The name, as a rubric writes it.
    pub fn name(self) -> &'static str {
        match self {
            Self::Cantus => "cantus",
            Self::Key => "key",
            Self::Meter => "meter",
            Self::Species => "species",
            Self::Rulebook => "rulebook",
        }
    }
}

/// Something that is not as it was set.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Departure {
    /// What it is.
    pub aspect: Aspect,
    /// How it differs, in words.
    pub message: String,
}

/// The name under which a rulebook goes: that of its file, if it is named by a path.
pub fn named_rulebook(name: &str) -> &str {
    let file = Path::new(name).file_name().and_then(|file| file.to_str()).unwrap_or(name);
    file.strip_suffix(FILE_END).unwrap_or(file)
}

/// Everything that is not as it was set. `named` is the rulebook that the sheet names.
pub(super) fn departures(task: &Task, exercise: &Exercise, named: Option<&str>) -> Vec<Departure> {
    let (set, own) = (&task.setting, &exercise.score.setting);
    let told = |aspect, set: String, own: String| {
        let message = format!("The {} is {own}; {set} is set.", Aspect::name(aspect));
        (set != own).then_some(Departure { aspect, message })
    };
    let cantus = task.cantus.as_ref().and_then(|cantus| altered(task, cantus, &exercise.score));
    let cantus = cantus.map(|message| Departure { aspect: Aspect::Cantus, message });
    let meter = |meter: bicinium_theory::Meter| format!("{}/{}", meter.beats, meter.unit);
    let all = [
        cantus,
        told(Aspect::Key, key(set.key), key(own.key)),
        told(Aspect::Meter, meter(set.meter), meter(own.meter)),
        told(Aspect::Species, species(set.species), species(own.species)),
        told(Aspect::Rulebook, task.rulebook.name.clone(), rulebook(named)),
    ];
    all.into_iter().flatten().collect()
}

fn key(key: Key) -> String {
    format!("{} {}", key.tonic, key.mode.name())
}

fn species(species: Option<u8>) -> String {
    species.map_or_else(|| "free writing".to_owned(), |number| number.to_string())
}

/// The rulebook that a sheet asks for; where it names none, the one that holds then.
fn rulebook(named: Option<&str>) -> String {
    let default = bicinium_analysis::Shelf::default().default_rulebook().name.clone();
    named.map_or(default, |name| named_rulebook(name).to_owned())
}

/// How the cantus differs from the one that is set, in any octave.
fn altered(task: &Task, cantus: &Definition, score: &Score) -> Option<String> {
    let Some(voice) = score.setting.cantus else {
        return Some("No voice is the cantus; one is set.".to_owned());
    };
    if Some(voice) != task.setting.cantus {
        let side = if voice == VoiceId::Upper { "above" } else { "below" };
        return Some(format!("The cantus is set in the other voice; here it lies {side}."));
    }
    let events = score.lines[voice].events.iter();
    let written: Vec<_> = events
        .filter_map(|event| Some((score.setting.bar_of(event.onset), event.pitch()?)))
        .collect();
    let Some(by) = cantus.transposition(written.iter().copied()) else {
        return Some("The cantus is not written.".to_owned());
    };
    if by.steps() % 7 != 0 || by.semitones() % 12 != 0 {
        return Some("The cantus is set in another key; it is transposed here.".to_owned());
    }
    let differing = differing(cantus, &written, by);
    let length = u32::try_from(cantus.notes.len()).unwrap_or(u32::MAX);
    let missing = score.setting.bars_of[voice] < length;
    match (differing.as_slice(), missing) {
        ([], false) => None,
        ([], true) => Some(format!("The cantus breaks off; {length} bars of it are set.")),
        (bars, _) => Some(format!("The cantus is altered: {}.", joined(bars, "and"))),
    }
}

/// "C5 in bar 3, where B4 is set".
fn differing(
    cantus: &Definition,
    written: &[(u32, bicinium_theory::Pitch)],
    by: Interval,
) -> Vec<String> {
    let tell = |(bar, own): &(u32, bicinium_theory::Pitch)| {
        let number = bar + 1;
        match cantus.note_in(*bar, by) {
            Some(set) if set == *own => None,
            Some(set) => Some(format!("{own} in bar {number}, where {set} is set")),
            None => Some(format!("{own} in bar {number}, where it has ended")),
        }
    };
    written.iter().filter_map(tell).collect()
}

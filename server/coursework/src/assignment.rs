//! What an assignment sets: its exercises with their key, meter, species, rulebook and cantus. Must not
//! know what was handed in.

use std::sync::Arc;

use bicinium_analysis::score::{Definition, Score, Setting, VoiceId};
use bicinium_analysis::{Exercise, Rulebook, Snapshot};
use bicinium_theory::Pitch;

use crate::points::Points;

/// What is set.
#[derive(Clone, Debug)]
pub struct Assignment {
    /// Until when it is to be handed in, in the teacher's words.
    pub deadline: Option<String>,
    /// The exercises, in the order of the sheet.
    pub tasks: Vec<Task>,
}

/// An exercise that is set.
#[derive(Clone, Debug)]
pub struct Task {
    /// Its number in the assignment, counted from 1.
    pub number: usize,
    /// Its title, if it has one.
    pub title: Option<String>,
    /// What it is worth, if the assignment says so.
    pub points: Option<Points>,
    /// Key, meter, species, which voice is given, and how many bars there are.
    pub setting: Setting,
    /// The rulebook by which it is marked.
    pub rulebook: Arc<Rulebook>,
    /// The cantus as it is set, one note a bar; `None` if none is.
    pub cantus: Option<Definition>,
}

impl Assignment {
    /// What a sheet sets.
    pub fn of(snapshot: &Snapshot) -> Self {
        let tasks: Vec<_> =
            snapshot.exercises().map(|(number, _, exercise)| Task::of(number, exercise)).collect();
        let deadline = snapshot.exercises().find_map(|(.., exercise)| exercise.deadline.clone());
        Self { deadline, tasks }
    }

    /// The rulebooks by which it is marked, each once.
    pub fn rulebooks(&self) -> Vec<Arc<Rulebook>> {
        let mut rulebooks: Vec<Arc<Rulebook>> = Vec::new();
        for task in &self.tasks {
            if !rulebooks.iter().any(|known| Arc::ptr_eq(known, &task.rulebook)) {
                rulebooks.push(task.rulebook.clone());
            }
        }
        rulebooks
    }
}

impl Task {
    fn of(number: usize, exercise: &Exercise) -> Self {
        let score = &exercise.score;
        Self {
            number,
            title: exercise.title.clone(),
            points: exercise.points.map(Points::whole),
            setting: score.setting.clone(),
            rulebook: exercise.rulebook.clone(),
            cantus: cantus(score),
        }
    }

    /// What it is called: its title, or its number.
    pub fn name(&self) -> String {
        self.title.clone().unwrap_or_else(|| format!("Exercise {}", self.number))
    }

    /// How many bars are to be written.
    pub fn bars(&self) -> u32 {
        let of_cantus = self.cantus.as_ref().map_or(0, |cantus| cantus.notes.len());
        self.setting.bars.max(u32::try_from(of_cantus).unwrap_or(u32::MAX))
    }
}

/// The cantus as it stands in its row, or as it is defined where the row is blank.
fn cantus(score: &Score) -> Option<Definition> {
    let voice = score.setting.cantus?;
    let written = in_bars(score, voice);
    match &score.setting.definition {
        Some(definition) if written.len() < definition.notes.len() => Some(definition.clone()),
        definition => {
            let name = definition.as_ref().map_or_else(String::new, |it| it.name.clone());
            let notes: Arc<[Pitch]> = written.into();
            (!notes.is_empty()).then_some(Definition { name, notes })
        }
    }
}

/// The notes that begin the bars of a voice, as far as every bar has one.
pub(crate) fn in_bars(score: &Score, voice: VoiceId) -> Vec<Pitch> {
    let note = |bar| score.lines[voice].event_at(score.setting.bar_start(bar))?.pitch();
    (0..score.setting.bars).map_while(note).collect()
}

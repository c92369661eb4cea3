//! The sheets of published examples, judged. Knows no treatise.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use bicinium_analysis::{Exercise, Finding, Level, Sheet, Shelf};

/// A published example and what is said of it.
pub struct Example {
    pub exercise: Exercise,
    pub findings: Vec<Finding>,
}

impl Example {
    /// The title of the example, without the word before the number of the figure.
    pub fn figure(&self) -> &str {
        let title = self.exercise.title.as_deref().unwrap_or_default();
        title.split_once(' ').map_or(title, |(_, figure)| figure)
    }

    /// The findings at least as grave as a level, one a line.
    pub fn told(&self, level: Level) -> Vec<String> {
        let grave = self.findings.iter().filter(|finding| finding.level <= level);
        grave.map(|finding| format!("{}: {}", finding.rule, finding.message)).collect()
    }
}

/// A file among the worked examples.
pub fn file(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/worked").join(name)
}

/// The examples of a sheet, judged by a rulebook that is built in or stands beside it.
pub fn examples(sheet: &str, rulebook: &str) -> Vec<Example> {
    let text = std::fs::read_to_string(file(&format!("{sheet}.bicinium"))).unwrap();
    let snapshot = Sheet::new(&text, Arc::new(shelf(rulebook))).snapshot();
    let exercises = snapshot.exercises().map(|(_, block, exercise)| Example {
        exercise: exercise.clone(),
        findings: block.judged.findings.clone(),
    });
    exercises.collect()
}

fn shelf(rulebook: &str) -> Shelf {
    let mut shelf = Shelf::default();
    if let Some(built_in) = shelf.get(rulebook).cloned() {
        return shelf.bound_to(built_in);
    }
    let text = std::fs::read_to_string(file(&format!("{rulebook}.rulebook.toml"))).unwrap();
    let own = shelf.add(&text).unwrap();
    shelf.bound_to(own)
}

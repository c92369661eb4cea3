//! Rulebooks in which something is wrong, told like what is found in sheets. It must not know what
//! a rulebook decides.

use std::ops::Range;
use std::path::{Path, PathBuf};

use bicinium_analysis::Level;
use bicinium_analysis::rulebook::RulebookProblem;
use bicinium_analysis::sheet::RULEBOOK;

use super::lines::Lines;
use super::picture::{Mark, picture};
use super::style::{self, FAINT, painted};
use super::words::{shown, wrapped};
use crate::schools::Schools;

/// A rulebook in which something is wrong.
#[derive(Clone, Debug)]
pub(super) struct Broken {
    /// Its file.
    pub(super) path: PathBuf,
    /// What it says; nothing if it cannot be read.
    pub(super) text: String,
    /// What is wrong, in the order of the text.
    pub(super) problems: Vec<RulebookProblem>,
}

impl Broken {
    /// What is wrong in files that were looked up.
    pub(super) fn among<'p>(
        schools: &Schools,
        files: impl IntoIterator<Item = &'p PathBuf>,
    ) -> Vec<Self> {
        let broken = |file: &PathBuf| {
            let held = schools.held(file).filter(|held| !held.problems.is_empty())?;
            let text = held.text.clone().unwrap_or_default();
            Some(Self { path: near(file), text, problems: held.problems.clone() })
        };
        files.into_iter().filter_map(broken).collect()
    }

    /// The name it goes by: its path.
    pub(super) fn name(&self) -> String {
        self.path.display().to_string()
    }

    /// Everything that is wrong, for people.
    pub(super) fn told(&self) -> String {
        let lines = Lines::new(&self.text);
        let name = self.name();
        let tell =
            |it: &RulebookProblem| problem(RULEBOOK, &name, &lines, it.range.clone(), &it.message);
        let told: Vec<_> = self.problems.iter().map(tell).collect();
        told.join("\n")
    }
}

/// What is wrong at a place of a file that is no sheet.
pub(super) fn problem(
    kind: &str,
    name: &str,
    lines: &Lines<'_>,
    range: Range<usize>,
    message: &str,
) -> String {
    let place = lines.position(range.start);
    let place = format!("{name}:{}:{}", place.line + 1, place.characters + 1);
    let style = style::level(Level::Notation);
    format!(
        "{}: {kind}\n  {}\n\n{}\n\n{}",
        painted(style, Level::Notation.name()),
        painted(FAINT, &shown(&place)),
        wrapped(&shown(message), "  "),
        picture(lines, &[Mark::here(range, style)])
    )
}

/// The path as seen from the current folder, if it lies in it.
fn near(path: &Path) -> PathBuf {
    let here = std::env::current_dir().unwrap_or_default();
    path.strip_prefix(here).unwrap_or(path).to_owned()
}

//! The rulebook that a person names on the command line. It must not know what it decides.

use std::path::Path;
use std::sync::Arc;

use bicinium_analysis::rulebook::RulebookProblem;
use bicinium_analysis::{Rulebook, Shelf};

use super::lines::Lines;
use crate::disk;

/// The rulebooks to mark by: what each sheet names, or the one that is named here. Where that
/// cannot be read, what has to be said about it.
pub(super) fn shelf(rulebook: Option<&str>) -> Result<Arc<Shelf>, String> {
    let Some(name) = rulebook else { return Ok(Arc::default()) };
    let (shelf, rulebook) = with(name)?;
    Ok(Arc::new(shelf.bound_to(rulebook)))
}

/// The rulebooks that are built in beside the one that is named here.
pub(super) fn beside(rulebook: Option<&str>) -> Result<Shelf, String> {
    rulebook.map_or_else(|| Ok(Shelf::default()), |name| with(name).map(|(shelf, _)| shelf))
}

/// A shelf with a rulebook on it, and that rulebook.
fn with(name: &str) -> Result<(Shelf, Arc<Rulebook>), String> {
    let mut shelf = Shelf::default();
    let known = shelf.get(name).cloned();
    let rulebook = known.map_or_else(|| read(&mut shelf, name), Ok)?;
    Ok((shelf, rulebook))
}

fn read(shelf: &mut Shelf, path: &str) -> Result<Arc<Rulebook>, String> {
    if !Path::new(path).exists() {
        return Err(unknown(shelf, path));
    }
    let text = disk::read(Path::new(path));
    let text = text.map_err(|reason| format!("The rulebook {path} cannot be read: {reason}."))?;
    check_toml(path, &text)?;
    shelf.add(&text).map_err(|problems| told(path, &problems))
}

fn unknown(shelf: &Shelf, name: &str) -> String {
    let names: Vec<_> = shelf.names().map(ToOwned::to_owned).collect();
    let names = super::words::list(&names);
    format!("There is no rulebook {name}. Built in are {names}; any other is named by its file.")
}

/// Says where a file cannot be read as TOML at all.
fn check_toml(path: &str, text: &str) -> Result<(), String> {
    let Err(error) = toml::from_str::<toml::Table>(text) else { return Ok(()) };
    let place = Lines::new(text).position(error.span().map_or(0, |span| span.start));
    let (line, column) = (place.line + 1, place.characters + 1);
    let message = error.message();
    Err(format!("The rulebook {path} cannot be read: line {line}, column {column}: {message}."))
}

fn told(path: &str, problems: &[RulebookProblem]) -> String {
    let lines = problems.iter().map(|problem| format!("\n  {}", problem.message));
    format!("The rulebook {path} does not hold together:{}", lines.collect::<String>())
}

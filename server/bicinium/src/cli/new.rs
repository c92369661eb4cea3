//! `bicinium new`: begins a sheet, and prints it or writes it into a file. It must not know how a
//! sheet is put together.

use std::io;
use std::path::{Path, PathBuf, absolute};

use bicinium_analysis::repertoire::{self, Cantus};

use super::Outcome;
use super::arguments::New;
use super::desk::{Desk, workspace};
use super::files::{Existing, put};
use super::marked::Marked;
use super::output::Output;
use super::sources::Source;
use super::words::{list, shown};
use crate::features::new_sheet::{Order, Side, from_assignment, on_cantus};

/// Writes the sheet, or says why not.
pub(super) fn run(options: &New, output: &mut Output) -> io::Result<Outcome> {
    match sheet(options).and_then(|text| deliver(options, &text)) {
        Ok(said) => {
            output.write(&said)?;
            Ok(Outcome::Clean)
        }
        Err(complaint) => {
            output.complain(&complaint);
            Ok(Outcome::Failed)
        }
    }
}

/// Writes the sheet where it is wanted; what is to be said, or the sheet itself.
fn deliver(options: &New, text: &str) -> Result<String, String> {
    let Some(path) = &options.output else { return Ok(text.to_owned()) };
    let existing = if options.force { Existing::Replaced } else { Existing::Kept };
    put(path, text.as_bytes(), existing)?;
    Ok(format!("{} written.\n", shown(&path.display().to_string())))
}

fn sheet(options: &New) -> Result<String, String> {
    let by = options.by.as_deref();
    if let Some(path) = &options.from {
        return copied(path, options);
    }
    let cantus = cantus(options.cantus.as_deref().unwrap_or_default())?;
    let side = if options.below { Side::Below } else { Side::Above };
    Ok(on_cantus(&Order { cantus, species: options.species, side, by }))
}

fn cantus(name: &str) -> Result<&'static Cantus, String> {
    repertoire::named(name).ok_or_else(|| {
        let nearest = repertoire::nearest(name).map(|it| it.defined.name.as_str());
        let hint = nearest.map_or_else(String::new, |it| format!(" Perhaps {it} is meant."));
        let names: Vec<_> = repertoire::all().iter().map(|it| it.defined.name.clone()).collect();
        format!("There is no cantus {name}.{hint} Known are {}.", list(&names))
    })
}

/// The sheet that an assignment sets.
fn copied(path: &Path, options: &New) -> Result<String, String> {
    let source = Source::at(path);
    let text = source.read()?;
    let desk = Desk::new(workspace(&options.reach, &[]));
    let judge = |text: &str| {
        Marked::new(source.clone(), text.to_owned(), &mut desk.afresh()).into_snapshot()
    };
    if judge(&text).exercises().next().is_none() {
        return Err(format!("{} sets no exercise.", source.name()));
    }
    let target = options.output.as_deref().unwrap_or(Path::new("-"));
    let seen = |named: &str| seen_from(target, path, named);
    Ok(from_assignment(&text, options.by.as_deref(), &seen, &judge))
}

/// How a path that is named in the sheet `from` is written in the sheet `target`.
fn seen_from(target: &Path, from: &Path, named: &str) -> String {
    let folder = |sheet: &Path| {
        let sheet = absolute(sheet).ok()?;
        Some(sheet.parent()?.to_owned())
    };
    let (Some(here), Some(there)) = (folder(target), folder(from)) else {
        return named.to_owned();
    };
    if here == there || Path::new(named).is_absolute() {
        return named.to_owned();
    }
    let path: Option<PathBuf> = pathdiff::diff_paths(there.join(named), here);
    path.map_or_else(|| named.to_owned(), |path| path.display().to_string())
}

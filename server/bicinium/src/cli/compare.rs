//! `bicinium compare`: what changed between two versions of a sheet. It must not know how versions are
//! compared.

use std::io;
use std::path::Path;
use std::sync::Arc;

use bicinium_analysis::Snapshot;

use super::Outcome;
use super::arguments::Compare;
use super::desk::{Desk, workspace};
use super::marked::Marked;
use super::output::Output;
use super::sources::Source;
use super::words::{hanging, shown};
use crate::features::comparison::{Changes, comparison, in_words};

/// Tells what changed, or what could not be read.
pub(super) fn run(options: &Compare, output: &mut Output) -> io::Result<Outcome> {
    match compared(options) {
        Ok(told) => {
            output.write(&told)?;
            Ok(Outcome::Clean)
        }
        Err(complaint) => {
            output.complain(&complaint);
            Ok(Outcome::Failed)
        }
    }
}

fn compared(options: &Compare) -> Result<String, String> {
    let newest = options.new.as_deref().unwrap_or(&options.old);
    let name = options.name.as_deref().unwrap_or(newest);
    let mut desk = Desk::new(workspace(&options.reach, &[]));
    let mut judged = |version: &Path| snapshot(version, name, &mut desk);
    let old = judged(&options.old)?;
    match &options.new {
        None => Ok(shown(&in_words(&old))),
        Some(new) => Ok(told(options, newest, &comparison(&old, &*judged(new)?)) + "\n"),
    }
}

/// A version, judged as if it lay where the sheet lies: what it uses is looked for there.
fn snapshot(path: &Path, name: &Path, desk: &mut Desk) -> Result<Arc<Snapshot>, String> {
    let text = Source::at(path).read()?;
    Ok(Marked::new(Source::at(name), text, desk).into_snapshot())
}

fn told(options: &Compare, newest: &Path, changes: &[Changes]) -> String {
    let name = |path: &Path| shown(&path.display().to_string());
    let heading = match &options.name {
        Some(path) => name(path),
        None => format!("{} and {}", name(&options.old), name(newest)),
    };
    if changes.is_empty() {
        return format!("{heading}: the music and what is found in it are the same.");
    }
    let mut lines = vec![heading];
    for change in changes {
        lines.push(format!("\n{}", shown(&change.heading)));
        lines.extend(change.lines.iter().map(|line| hanging(&shown(line), "  ", "    ")));
    }
    lines.join("\n")
}

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
use crate::features::comparison::{Changes, comparison};

/// Tells what changed, or what could not be read.
pub(super) fn run(options: &Compare, output: &mut Output) -> io::Result<Outcome> {
    let name = options.name.as_deref().unwrap_or(&options.new);
    let mut desk = Desk::new(workspace(&options.reach, &[]));
    let mut judged = |version| snapshot(version, name, &mut desk);
    let versions = judged(&options.old).and_then(|old| Ok((old, judged(&options.new)?)));
    match versions {
        Ok((old, new)) => {
            output.line(&told(options, &comparison(&old, &new)))?;
            Ok(Outcome::Clean)
        }
        Err(complaint) => {
            output.complain(&complaint);
            Ok(Outcome::Failed)
        }
    }
}

/// A version, judged as if it lay where the sheet lies: what it uses is looked for there.
fn snapshot(path: &Path, name: &Path, desk: &mut Desk) -> Result<Arc<Snapshot>, String> {
    let text = Source::at(path).read()?;
    Ok(Marked::new(Source::at(name), text, desk).into_snapshot())
}

fn told(options: &Compare, changes: &[Changes]) -> String {
    let name = |path: &Path| shown(&path.display().to_string());
    let heading = match &options.name {
        Some(path) => name(path),
        None => format!("{} and {}", name(&options.old), name(&options.new)),
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

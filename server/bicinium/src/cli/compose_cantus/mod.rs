//! `bicinium compose-cantus`: writes a cantus firmus, and says how hard it is. It must not know how one
//! is found.

mod counts;
mod sheet;
mod wish;

use std::io;
use std::sync::atomic::AtomicBool;
use std::time::Duration;

use bicinium_realizer::{Budget, Watch};

use super::Outcome;
use super::arguments::ComposeCantus;
use super::files::{Existing, put};
use super::output::Output;
use super::progress::Progress;
use super::words::shown;

/// Composes, counts and writes; or says why not.
pub(super) fn run(options: &ComposeCantus, output: &mut Output) -> io::Result<Outcome> {
    let wish = match wish::read(options) {
        Ok(wish) => wish,
        Err(complaint) => return Ok(refuse(output, &complaint, Outcome::Failed)),
    };
    let progress = Progress::new("Composing");
    let tell = |share: f64| progress.show(share);
    let cancelled = AtomicBool::new(false);
    let watch = Watch::new(budget(options), &cancelled).with_progress(&tell);
    let composed = wish.compose(&watch);
    drop(progress);
    let cantus = match composed {
        Ok(cantus) => cantus,
        Err(refusal) => {
            return Ok(refuse(output, &wish::refused(&wish, &refusal), Outcome::Faults));
        }
    };
    let counts = if options.no_count { Vec::new() } else { counts::all(&wish, &cantus, options) };
    hand_over(&sheet::text(&wish, &cantus, &counts), options, output)
}

/// How long each search may take.
fn budget(options: &ComposeCantus) -> Budget {
    Budget { time: Duration::from_secs(options.time), ..Budget::default() }
}

/// Puts the sheet where it is wished.
fn hand_over(text: &str, options: &ComposeCantus, output: &mut Output) -> io::Result<Outcome> {
    let Some(path) = &options.output else {
        output.write(text)?;
        return Ok(Outcome::Clean);
    };
    let existing = if options.force { Existing::Replaced } else { Existing::Kept };
    if let Err(complaint) = put(path, text.as_bytes(), existing) {
        return Ok(refuse(output, &complaint, Outcome::Failed));
    }
    output.line(&format!("{} written.", shown(&path.display().to_string())))?;
    Ok(Outcome::Clean)
}

fn refuse(output: &mut Output, complaint: &str, outcome: Outcome) -> Outcome {
    output.complain(complaint);
    outcome
}

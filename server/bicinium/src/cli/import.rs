//! `bicinium import`: a score of another program becomes a sheet. It must not know how scores are read.

use std::io::{self, Read};
use std::path::Path;

use bicinium_analysis::score::VoiceId;
use bicinium_export::import::{self, LONGEST};

use super::Outcome;
use super::arguments::{Import, Which};
use super::files::{Existing, put};
use super::output::Output;
use super::words::{list, shown};
use crate::disk;
use crate::features::importing::{Task, Written, sheet};

/// Writes the sheet, and tells what of the score does not stand in it; or says why not.
pub(super) fn run(options: &Import, output: &mut Output) -> io::Result<Outcome> {
    let name = options.score.display();
    let read = bytes(&options.score).and_then(|bytes| {
        import::read(&bytes).map_err(|refusal| format!("{name} cannot be imported: {refusal}."))
    });
    let score = match read {
        Ok(score) => score,
        Err(complaint) => return Ok(refuse(output, &complaint)),
    };
    let written = sheet(&score, task(options));
    if let Err(complaint) = hand_over(&written, options, output)? {
        return Ok(refuse(output, &complaint));
    }
    let remarks = score.remarks.iter().map(ToString::to_string);
    let remarks: Vec<_> = remarks.chain(unwritten(&written)).collect();
    for remark in &remarks {
        output.complain(remark);
    }
    Ok(if remarks.is_empty() { Outcome::Clean } else { Outcome::Faults })
}

/// The bytes of the score; or what has to be said instead.
fn bytes(path: &Path) -> Result<Vec<u8>, String> {
    let mut bytes = Vec::new();
    let read = if path == Path::new("-") {
        io::stdin().take(LONGEST + 1).read_to_end(&mut bytes)
    } else {
        std::fs::File::open(path).and_then(|file| file.take(LONGEST + 1).read_to_end(&mut bytes))
    };
    let told =
        |error: io::Error| format!("{} cannot be read: {}.", path.display(), disk::reason(&error));
    read.map(|_| bytes).map_err(told)
}

fn task(options: &Import) -> Task {
    let voice = |which: Which| match which {
        Which::Upper => VoiceId::Upper,
        Which::Lower => VoiceId::Lower,
    };
    Task { species: options.species, cantus: options.cantus.map(voice) }
}

/// Puts the sheet where it is wished.
fn hand_over(
    written: &Written,
    options: &Import,
    output: &mut Output,
) -> io::Result<Result<(), String>> {
    let Some(path) = &options.output else {
        return output.write(&written.text).map(Ok);
    };
    let existing = if options.force { Existing::Replaced } else { Existing::Kept };
    if let Err(complaint) = put(path, written.text.as_bytes(), existing) {
        return Ok(Err(complaint));
    }
    output.line(&format!("{} written.", shown(&path.display().to_string()))).map(Ok)
}

/// What is told of bars that could not be written.
fn unwritten(written: &Written) -> Option<String> {
    let bar =
        |(voice, bar): &(VoiceId, u32)| format!("bar {} of the {} voice", bar + 1, voice.name());
    let bars: Vec<_> = written.unwritten.iter().map(bar).collect();
    let is_any = !bars.is_empty();
    is_any.then(|| format!("The sheet leaves blank {}: the rhythm cannot be written.", list(&bars)))
}

fn refuse(output: &mut Output, complaint: &str) -> Outcome {
    output.complain(complaint);
    Outcome::Failed
}

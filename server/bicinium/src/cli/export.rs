//! `bicinium export`: an exercise is written into a file for other programs. It must not know how any
//! of their formats is put together.

use std::ffi::OsStr;
use std::fs::File;
use std::io::{self, Write};
use std::path::Path;

use bicinium_analysis::Finding;
use bicinium_analysis::sheet::{Exercise, Snapshot};
use bicinium_export::midi;
use bicinium_export::musicxml::{self, Extra};

use super::Outcome;
use super::arguments::{Export, Shown};
use super::marked::{By, Marked};
use super::output::Output;
use super::sources::Source;
use super::words::{count, shown};
use crate::disk;
use crate::schools::Schools;

/// Writes the file, or says why not.
pub(super) fn run(options: &Export, output: &mut Output) -> io::Result<Outcome> {
    if let Err(complaint) = export(options) {
        output.complain(&complaint);
        return Ok(Outcome::Failed);
    }
    output.line(&format!("{} written.", shown(&options.output.display().to_string())))?;
    Ok(Outcome::Clean)
}

fn export(options: &Export) -> Result<(), String> {
    let format = Format::of(&options.output)?;
    let source = match options.sheet.as_path() {
        path if path == Path::new("-") => Source::Input,
        path => Source::File(path.to_owned()),
    };
    let text = source.read()?;
    let marked = Marked::new(source, text, &mut By::Theirs(Schools::default()));
    let (exercise, findings) = chosen(marked.snapshot(), options.exercise)?;
    put(options, &format.bytes(exercise, findings, options)?)
}

/// The formats that can be written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Format {
    MusicXml,
    Midi,
}

impl Format {
    /// The format that the name of a file asks for.
    fn of(path: &Path) -> Result<Self, String> {
        let ending = path.extension().and_then(OsStr::to_str).map(str::to_ascii_lowercase);
        match ending.as_deref() {
            Some("musicxml") => Ok(Self::MusicXml),
            Some("mid") => Ok(Self::Midi),
            _ => Err(format!(
                "{} does not say what to write: let its name end in .musicxml for a score or in \
                 .mid for a MIDI file.",
                path.display()
            )),
        }
    }

    fn bytes(
        self,
        exercise: &Exercise,
        findings: &[Finding],
        options: &Export,
    ) -> Result<Vec<u8>, String> {
        match self {
            Self::MusicXml => {
                let mut bytes = Vec::new();
                musicxml::write(exercise, findings, &extras(&options.show), &mut bytes)
                    .map_err(|error| format!("The score cannot be written: {error}."))?;
                Ok(bytes)
            }
            Self::Midi => midi::file(exercise, options.tempo)
                .map_err(|refusal| format!("No MIDI file can be written: {refusal}.")),
        }
    }
}

fn extras(show: &[Shown]) -> Vec<Extra> {
    let extra = |shown: &Shown| match shown {
        Shown::Nothing => None,
        Shown::Figures => Some(Extra::Figures),
        Shown::Harmonies => Some(Extra::Harmonies),
        Shown::Findings => Some(Extra::Findings),
    };
    show.iter().filter_map(extra).collect()
}

/// The exercise that is meant, with what was found in it.
fn chosen(snapshot: &Snapshot, number: Option<usize>) -> Result<(&Exercise, &[Finding]), String> {
    let all: Vec<_> = snapshot.exercises().collect();
    let found = match (number, all.len()) {
        (_, 0) => return Err("There is no exercise in the sheet.".to_owned()),
        (None, 1) => all.first(),
        (None, several) => {
            return Err(format!(
                "The sheet has {several} exercises: say which one, with --exercise 1 to {several}."
            ));
        }
        (Some(number), _) => all.iter().find(|(own, ..)| *own == number),
    };
    let exercises = count(all.len(), "exercise", "exercises");
    let (_, block, exercise) =
        found.ok_or_else(|| format!("There is no such exercise; the sheet has {exercises}."))?;
    Ok((exercise, &block.judged.findings))
}

/// Writes the file; one that is there already only if that is wished.
fn put(options: &Export, bytes: &[u8]) -> Result<(), String> {
    let path = &options.output;
    let name = path.display();
    let opened = if options.force { File::create(path) } else { File::create_new(path) };
    let done = opened.and_then(|mut file| file.write_all(bytes));
    done.map_err(|error| match error.kind() {
        io::ErrorKind::AlreadyExists => {
            format!(
                "{name} is there already and is not replaced; name another file, or add --force."
            )
        }
        _ => format!("{name} cannot be written: {}.", disk::reason(&error)),
    })
}

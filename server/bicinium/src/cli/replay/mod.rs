//! `bicinium replay`: a recorded session is played again, and the answers are held against those that
//! were recorded. It must not know what the answers are about.

mod compare;
mod line;
mod play;

use std::io;
use std::path::Path;

use self::line::Line;
use self::play::{Played, play};
use super::Outcome;
use super::arguments::Replay;
use super::output::Output;
use super::words::count;
use crate::recording::{self, Entry};

/// Plays the recording and says what came of it.
pub(super) fn run(options: &Replay, output: &mut Output) -> io::Result<Outcome> {
    let played = session(&options.file).and_then(|session| {
        let server = options.server.clone().map_or_else(std::env::current_exe, Ok);
        let line = server.and_then(|server| Line::to(&server));
        let line = line.map_err(|error| format!("The server cannot be started: {error}."))?;
        Ok(play(&session, line))
    });
    match played {
        Ok(played) => tell(&played, output),
        Err(reason) => {
            output.complain(&reason);
            Ok(Outcome::Failed)
        }
    }
}

fn session(path: &Path) -> Result<Vec<Entry>, String> {
    let refused = |reason: String| format!("{} cannot be played: {reason}.", path.display());
    let text =
        std::fs::read_to_string(path).map_err(|error| refused(crate::disk::reason(&error)))?;
    recording::read(&text).map_err(refused)
}

fn tell(played: &Played, output: &mut Output) -> io::Result<Outcome> {
    let said = count(played.said, "message", "messages");
    let compared = count(played.compared, "answer", "answers");
    output.line(&format!("Played {said} of the editor; compared {compared} of the server."))?;
    if played.left_out > 0 {
        let passed = count(played.left_out, "answer was", "answers were");
        output.line(&format!("{passed} not compared, for the question was withdrawn."))?;
    }
    let Some(first) = &played.first else {
        output.line("All answers are the same.")?;
        return Ok(Outcome::Clean);
    };
    let differ = count(played.differing, "answer differs", "answers differ");
    output.line(&format!("{differ}. The first is {first}"))?;
    Ok(Outcome::Faults)
}

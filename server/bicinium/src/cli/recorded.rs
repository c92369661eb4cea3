//! `bicinium lsp`: an editor is served, and the session recorded if that is asked for. It must not
//! know what is said in it.

use std::io::{self, ErrorKind};
use std::process::ExitCode;

use super::arguments::Lsp;
use super::output::Output;
use super::{Outcome, exit_code};
use crate::lsp;
use crate::recording::{Existing, Recorder};

/// Serves, or says why the session cannot be recorded.
pub(super) fn serve(options: &Lsp) -> ExitCode {
    match recorder(options) {
        Ok(recorder) => lsp::run(recorder),
        Err(reason) => {
            Output::new().complain(&reason);
            exit_code(Outcome::Failed)
        }
    }
}

fn recorder(options: &Lsp) -> Result<Recorder, String> {
    let Some(path) = &options.record else { return Ok(Recorder::default()) };
    let existing = if options.force { Existing::Replace } else { Existing::Keep };
    let refused = |error: io::Error| match error.kind() {
        ErrorKind::AlreadyExists => format!(
            "{} is there already and is not replaced; name another file, or add --force.",
            path.display()
        ),
        _ => format!("The session cannot be recorded in {}: {error}.", path.display()),
    };
    Recorder::into_file(path, existing).map_err(refused)
}

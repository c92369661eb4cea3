//! How an editor is served, and a session played again.

use std::path::PathBuf;

use clap::Args;

pub(super) const EXIT: &str = "\
Exit code: 0 if all answers are the same, 1 if some differ, 2 if the recording cannot be played.";

#[derive(Debug, Args)]
pub(crate) struct Lsp {
    /// Speak over standard input and output; this is so in any case
    #[arg(long)]
    pub(crate) stdio: bool,
    /// Take down every message, in and out, with its time
    ///
    /// For reports of bugs: `bicinium replay FILE` plays the session again. The file holds the
    /// whole text of the sheets that are open, and their paths; it is written line by line, so it is
    /// whole even if the session ends badly. A file that is there already is not replaced.
    #[arg(long, value_name = "FILE")]
    pub(crate) record: Option<PathBuf>,
    /// Let --record replace a file that is there already
    #[arg(long, requires = "record")]
    pub(crate) force: bool,
}

#[derive(Debug, Args)]
pub(crate) struct Replay {
    /// The recording
    #[arg(value_name = "FILE")]
    pub(crate) file: PathBuf,
    /// Play it to this program instead of the one that you are running
    #[arg(long, value_name = "PROGRAM")]
    pub(crate) server: Option<PathBuf>,
}

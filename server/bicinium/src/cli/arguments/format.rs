//! Which sheets are laid out.

use std::path::PathBuf;

use clap::Args;

pub(super) const EXIT: &str = "\
Exit code: 0 if all is done, 1 if --check finds a sheet with another layout, 2 if \
something could not be done, such as opening a sheet.";

#[derive(Debug, Args)]
pub(crate) struct Format {
    /// Sheets, and folders that are searched for sheets
    ///
    /// `-` reads standard input and writes the result to standard output. If nothing is named, the
    /// folder you are in is searched.
    #[arg(value_name = "PATHS")]
    pub(crate) paths: Vec<PathBuf>,
    /// Write nothing; name the sheets whose layout would change
    #[arg(long)]
    pub(crate) check: bool,
}

//! Which score becomes a sheet.

use std::path::PathBuf;

use clap::Args;

use super::Which;
use super::within::within;

pub(super) const EXIT: &str = "\
Exit code: 0 if all of the score stands in the sheet, 1 if something is left out or changed, 2 if \
it could not be read or written.";

#[derive(Debug, Args)]
pub(crate) struct Import {
    /// The score; `-` reads standard input
    #[arg(value_name = "SCORE")]
    pub(crate) score: PathBuf,
    /// Write the sheet into this file instead of showing it
    #[arg(short, long, value_name = "SHEET")]
    pub(crate) output: Option<PathBuf>,
    /// The species; otherwise it is free writing
    #[arg(long, value_name = "N", value_parser = within(1..=5_u8))]
    pub(crate) species: Option<u8>,
    /// The voice that is the cantus
    #[arg(long, value_enum, value_name = "WHICH")]
    pub(crate) cantus: Option<Which>,
    /// Replace a file that is there already
    #[arg(long, requires = "output")]
    pub(crate) force: bool,
}

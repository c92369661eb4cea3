//! How a sheet begins.

use std::path::PathBuf;

use clap::Args;

use super::Reach;
use super::within::within;

pub(super) const EXIT: &str = "\
Exit code: 0 if the sheet has been written, 2 if it has not.";

#[derive(Debug, Args)]
pub(crate) struct New {
    /// Take the exercises that this sheet sets; `-` reads standard input
    #[arg(long, value_name = "ASSIGNMENT", required_unless_present = "cantus")]
    pub(crate) from: Option<PathBuf>,
    /// Take this cantus: fux-dorian, fux-phrygian, fux-lydian, fux-mixolydian, fux-aeolian,
    /// fux-ionian, lehmann-6, lehmann-17, lehmann-62 or lehmann-78
    #[arg(long, value_name = "NAME", conflicts_with = "from")]
    pub(crate) cantus: Option<String>,
    /// The species, 1 to 5; left out, the exercise is free writing
    #[arg(long, value_name = "N", conflicts_with = "from")]
    #[arg(value_parser = within(1..=5_u8))]
    pub(crate) species: Option<u8>,
    /// Write above the cantus; this is so if nothing is said
    #[arg(long, conflicts_with_all = ["from", "below"])]
    pub(crate) above: bool,
    /// Write below the cantus
    #[arg(long, conflicts_with = "from")]
    pub(crate) below: bool,
    /// Who is going to write it
    #[arg(long, value_name = "NAME")]
    pub(crate) by: Option<String>,
    /// The sheet to write
    #[arg(short, long, value_name = "FILE")]
    pub(crate) output: Option<PathBuf>,
    /// Replace a file that is there already
    #[arg(long, requires = "output")]
    pub(crate) force: bool,
    #[command(flatten)]
    pub(crate) reach: Reach,
}

//! What was handed in, for what, and how the marks are told.

use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::Reach;

pub(super) const EXIT: &str = "\
Exit code: 0 if everything has been marked, 2 if something could not be, or if nothing could be \
written.";

#[derive(Debug, Args)]
pub(crate) struct Mark {
    /// Sheets that were handed in, and folders that are searched for such sheets
    #[arg(value_name = "HAND-INS", required = true)]
    pub(crate) hand_ins: Vec<PathBuf>,
    /// The sheet that sets the exercises
    ///
    /// An exercise answers the one of its title, or else the one of its number.
    #[arg(long, value_name = "ASSIGNMENT")]
    pub(crate) against: PathBuf,
    /// What is taken off and given; without it, a point for each fault and half a one for each
    /// caution
    #[arg(long, value_name = "RUBRIC.toml")]
    pub(crate) rubric: Option<PathBuf>,
    /// How to tell the marks
    #[arg(long, value_enum, default_value_t = Marks::Table, value_name = "FORMAT")]
    pub(crate) format: Marks,
    /// The file to write; without it, the marks are printed
    #[arg(short, long, value_name = "OUT")]
    pub(crate) output: Option<PathBuf>,
    /// Put numbers in the place of names
    #[arg(long)]
    pub(crate) anonymous: bool,
    /// Replace a file that is there already
    #[arg(long, requires = "output")]
    pub(crate) force: bool,
    #[command(flatten)]
    pub(crate) reach: Reach,
}

/// How marks are told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Marks {
    /// For people: a line for each student
    Table,
    /// One page with the class and every sheet, for a browser or a printer
    Html,
    /// A line for each student and exercise, for a spreadsheet
    Csv,
    /// All of it, for other programs
    Json,
}

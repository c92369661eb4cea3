//! What is asked about the ways that are left.

use std::path::PathBuf;

use clap::{Args, ValueEnum};

use super::Reach;

pub(super) const EXIT: &str = "\
Exit code: 0 if there is a way, 1 if there is none or the notation cannot be read, 2 if \
something could not be done, such as opening the sheet.";

#[derive(Debug, Args)]
pub(crate) struct Realize {
    /// The sheet; `-` stands for standard input
    #[arg(value_name = "FILE")]
    pub(crate) file: PathBuf,
    /// Take this exercise only, counted from 1; otherwise every one in which something is open
    #[arg(long, value_name = "N")]
    pub(crate) exercise: Option<usize>,
    /// Say how many ways there are
    #[arg(long, group = "question")]
    pub(crate) count: bool,
    /// Show the K best ways
    #[arg(long, value_name = "K", group = "question")]
    pub(crate) best: Option<usize>,
    /// Show N ways, drawn with equal chances from all
    #[arg(long, value_name = "N", group = "question")]
    pub(crate) sample: Option<usize>,
    /// Draw the same ways whenever this number is given
    #[arg(long, value_name = "S", requires = "sample", default_value_t = 1)]
    pub(crate) seed: u64,
    /// Show what every open place may still become
    #[arg(long, group = "question")]
    pub(crate) viable: bool,
    /// Write the way into the sheet: the best one, or the one that is drawn
    #[arg(long, conflicts_with_all = ["count", "viable"])]
    pub(crate) write: bool,
    /// Search no longer than this for each exercise
    #[arg(long, value_name = "SECONDS", default_value_t = 60)]
    pub(crate) time: u64,
    /// How to tell what was found
    #[arg(long, value_enum, default_value_t = Telling::Text, value_name = "FORMAT")]
    pub(crate) format: Telling,
    #[command(flatten)]
    pub(crate) reach: Reach,
}

/// How ways are told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Telling {
    /// For people: rows as they would stand in the sheet
    Text,
    /// One value for other programs
    Json,
}

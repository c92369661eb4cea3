//! What is to be marked, and how it is told.

use std::path::PathBuf;

use bicinium_analysis::Level;
use clap::{Args, ValueEnum};

use super::Reach;

pub(super) const EXIT: &str = "\
Exit code: 0 if no fault was found, 1 if there are faults or notation that cannot be read, 2 if \
something could not be done, such as opening a sheet.";

#[derive(Debug, Args)]
pub(crate) struct Check {
    /// Sheets, and folders that are searched for sheets
    ///
    /// A folder is searched with everything in it for files whose names end in `.bicinium`; hidden
    /// ones and those that a .gitignore file leaves out are passed over. `-` stands for standard
    /// input. If nothing is named, the folder you are in is searched.
    #[arg(value_name = "PATHS")]
    pub(crate) paths: Vec<PathBuf>,
    /// Mark by this rulebook, whatever the sheets name: `tonal`, `modal`, a name or a file
    ///
    /// Everything is marked by this one school's rules: where a sheet names no rulebook, and also
    /// where it names another. The rulebook of a name is the file NAME.rulebook.toml in the
    /// current folder or the nearest one above it. If something is wrong in it, that is told, and
    /// nothing is marked.
    #[arg(long, value_name = "RULEBOOK")]
    pub(crate) rulebook: Option<String>,
    /// Mark only what has changed since this revision, as git knows it
    ///
    /// That is what differs from the revision or is not in it, and what uses a sheet or a rulebook that
    /// does.
    #[arg(long, value_name = "REV")]
    pub(crate) changed_since: Option<String>,
    /// How to tell what was found
    #[arg(long, value_enum, default_value_t = Report::Text, value_name = "FORMAT")]
    pub(crate) format: Report,
    /// Show findings of this level and graver ones
    ///
    /// What is hidden by it is counted in the last line all the same.
    #[arg(long, value_enum, default_value_t = Threshold::Unfinished, value_name = "LEVEL")]
    pub(crate) level: Threshold,
    #[command(flatten)]
    pub(crate) reach: Reach,
}

/// How findings are told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Report {
    /// For people: each finding below the line it is written in
    Text,
    /// One list of all findings, for other programs
    Json,
    /// SARIF 2.1.0, for programs that collect findings
    Sarif,
}

/// The mildest level that is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Threshold {
    /// Text that cannot be read as music
    Notation,
    /// Wrong in the school in force
    Fault,
    /// Wrong unless there is a reason
    Caution,
    /// A matter of taste
    Advice,
    /// Not there yet
    Unfinished,
}

impl Threshold {
    /// The level itself.
    pub(crate) fn level(self) -> Level {
        match self {
            Self::Notation => Level::Notation,
            Self::Fault => Level::Fault,
            Self::Caution => Level::Caution,
            Self::Advice => Level::Advice,
            Self::Unfinished => Level::Unfinished,
        }
    }
}

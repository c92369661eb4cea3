//! Which versions are compared.

use std::path::PathBuf;

use clap::Args;

use super::Reach;

pub(super) const EXIT: &str = "\
Exit code: 0 if both versions have been compared, whether or not they differ; 2 if one could not be \
read.";

#[derive(Debug, Args)]
pub(crate) struct Compare {
    /// The older version; `-` stands for standard input
    #[arg(value_name = "OLD")]
    pub(crate) old: PathBuf,
    /// The newer version; without it, the one version is told in words, bar by bar
    ///
    /// That is for programs that compare texts, such as git with its `textconv`. Nothing is told that
    /// does not stand in the sheet.
    #[arg(value_name = "NEW")]
    pub(crate) new: Option<PathBuf>,
    /// Where the sheet itself lies, if the versions lie elsewhere: what it uses is looked for there
    #[arg(long, value_name = "SHEET")]
    pub(crate) name: Option<PathBuf>,
    #[command(flatten)]
    pub(crate) reach: Reach,
}

//! What sheets may take from others.

use std::path::PathBuf;

use clap::Args;

#[derive(Debug, Args)]
pub(crate) struct Reach {
    /// Let sheets use others in this folder, though it lies outside the workspace
    ///
    /// A sheet may use those in its own folder, in its checkout of version control, and in the folder
    /// you are in if it lies there itself. More folders can be given by saying this more than once.
    #[arg(long, value_name = "FOLDER")]
    pub(crate) may_use: Vec<PathBuf>,
}

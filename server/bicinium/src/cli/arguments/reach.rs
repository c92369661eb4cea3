//! What sheets may take from others.

use std::path::PathBuf;

use clap::Args;

#[derive(Debug, Args)]
pub(crate) struct Reach {
    /// Let sheets use others in this folder, and rulebooks by their path, though it lies outside the workspace
    ///
    /// A sheet may use those in its own folder and in its checkout of version control, and those in the
    /// folder you are in and in folders that you name, if it lies in one of them itself. More folders can
    /// be allowed by saying this more than once.
    #[arg(long, value_name = "FOLDER")]
    pub(crate) may_use: Vec<PathBuf>,
}

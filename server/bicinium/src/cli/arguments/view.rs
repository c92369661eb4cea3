//! Which sheet is shown in a browser.

use std::path::PathBuf;

use clap::Args;

use super::Reach;

#[derive(Debug, Args)]
pub(crate) struct View {
    /// The sheet
    #[arg(value_name = "SHEET")]
    pub(crate) sheet: PathBuf,
    /// The port of the page; 0 stands for any that is free
    #[arg(long, value_name = "NUMBER", default_value_t = 0)]
    pub(crate) port: u16,
    #[command(flatten)]
    pub(crate) reach: Reach,
}

//! What is asked about the rules.

use std::path::PathBuf;

use clap::Args;

#[derive(Debug, Args)]
pub(crate) struct Rules {
    /// List the switches: every question, its answers, and what each rulebook answers
    #[arg(long)]
    pub(crate) switches: bool,
    /// Set this rulebook beside those that are built in: a name or a file
    #[arg(long, value_name = "RULEBOOK")]
    pub(crate) rulebook: Option<String>,
    /// Tell in sentences how the rulebook differs from the one that it extends
    #[arg(long, requires = "rulebook", conflicts_with_all = ["switches", "pages"])]
    pub(crate) explain_differences: bool,
    /// Write the pages of the rules into this folder, one HTML file for each, and an index
    ///
    /// The pages need nothing else and may be put on a server or printed. The folder is made if it
    /// is not there. Pages that this command has made before are made anew; if it would replace
    /// any other file, it writes nothing.
    #[arg(long, value_name = "FOLDER", conflicts_with = "switches")]
    pub(crate) pages: Option<PathBuf>,
    /// Let --pages replace files that it has not made itself
    #[arg(long, requires = "pages")]
    pub(crate) force: bool,
}

#[derive(Debug, Args)]
pub(crate) struct Explain {
    /// The name of the rule, as findings and `bicinium rules` give it
    #[arg(value_name = "RULE")]
    pub(crate) rule: String,
}

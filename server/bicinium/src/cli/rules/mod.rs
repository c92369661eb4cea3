//! `bicinium rules`: what the rulebooks decide, in the forms that can be asked for. It must not
//! know what any rule is about.

mod table;

use std::io;

use super::Outcome;
use super::output::Output;

/// Lists the rules with their levels.
pub(super) fn run(output: &mut Output) -> io::Result<Outcome> {
    table::list(output)
}

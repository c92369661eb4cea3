//! `bicinium rules`: what the rulebooks decide, in the forms that can be asked for. It must not
//! know what any rule is about.

mod questions;
mod table;

use std::io;

use super::Outcome;
use super::arguments::Rules;
use super::output::Output;
use super::school;

/// Lists the rules with their levels, or their switches with the answers.
pub(super) fn run(options: &Rules, output: &mut Output) -> io::Result<Outcome> {
    let shelf = match school::beside(options.rulebook.as_deref()) {
        Ok(shelf) => shelf,
        Err(complaint) => {
            output.complain(&complaint);
            return Ok(Outcome::Failed);
        }
    };
    if options.switches { questions::list(&shelf, output) } else { table::list(&shelf, output) }
}

//! `bicinium rules`: what the rulebooks decide, in the forms that can be asked for. It must not
//! know what any rule is about.

mod pages;
mod questions;
mod table;

use std::io;

use self::pages::Others;
use super::Outcome;
use super::arguments::Rules;
use super::output::Output;
use super::school;

/// Lists the rules with their levels, or their switches with the answers, or writes their pages.
pub(super) fn run(options: &Rules, output: &mut Output) -> io::Result<Outcome> {
    let shelf = match school::beside(options.rulebook.as_deref()) {
        Ok(shelf) => shelf,
        Err(refused) => {
            for broken in &refused.broken {
                output.line(&broken.told())?;
            }
            output.complain(&refused.complaint);
            return Ok(Outcome::Failed);
        }
    };
    match &options.pages {
        Some(folder) => {
            let others = if options.force { Others::Replaced } else { Others::Kept };
            pages::write(folder, others, &shelf, output)
        }
        None if options.switches => questions::list(&shelf, output),
        None => table::list(&shelf, output),
    }
}

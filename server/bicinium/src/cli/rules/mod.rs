//! `bicinium rules`: what the rulebooks decide, in the forms that can be asked for. It must not
//! know what any rule is about.

mod differences;
mod pages;
mod questions;
mod table;

use std::io;
use std::sync::Arc;

use bicinium_analysis::{Rulebook, Shelf};

use self::pages::Others;
use super::Outcome;
use super::arguments::Rules;
use super::output::Output;
use super::school::{self, Refused};

/// Lists the rules with their levels, or their switches with the answers, or tells how a school
/// differs, or writes the pages of the rules.
pub(super) fn run(options: &Rules, output: &mut Output) -> io::Result<Outcome> {
    let rulebook = match options.rulebook.as_deref().map(school::named).transpose() {
        Ok(rulebook) => rulebook,
        Err(refused) => return refuse(&refused, output),
    };
    if let (true, Some(rulebook)) = (options.explain_differences, &rulebook) {
        return differences::explain(rulebook, output);
    }
    let shelf = beside(rulebook);
    match &options.pages {
        Some(folder) => {
            let others = if options.force { Others::Replaced } else { Others::Kept };
            pages::write(folder, others, &shelf, output)
        }
        None if options.switches => questions::list(&shelf, output),
        None => table::list(&shelf, output),
    }
}

/// The rulebooks that are built in beside another one.
fn beside(rulebook: Option<Arc<Rulebook>>) -> Shelf {
    let mut shelf = Shelf::default();
    if let Some(rulebook) = rulebook {
        shelf.put(&rulebook.name.clone(), Ok(rulebook));
    }
    shelf
}

fn refuse(refused: &Refused, output: &mut Output) -> io::Result<Outcome> {
    for broken in &refused.broken {
        output.line(&broken.told())?;
    }
    output.complain(&refused.complaint);
    Ok(Outcome::Failed)
}

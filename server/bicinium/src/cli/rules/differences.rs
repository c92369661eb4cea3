//! How a school differs from the one that it extends: `bicinium rules --explain-differences`. It
//! must not know how that is found out.

use std::io;

use bicinium_analysis::Rulebook;

use crate::cli::Outcome;
use crate::cli::output::Output;
use crate::cli::style::{STRONG, painted};
use crate::cli::words::{hanging, shown, wrapped};
use crate::features::differences::differences;

/// Tells the differences, thing by thing.
pub(super) fn explain(rulebook: &Rulebook, output: &mut Output) -> io::Result<Outcome> {
    let name = called(rulebook);
    let Some(base) = &rulebook.base else {
        let alone = format!("{name} extends no other rulebook, so there is nothing to compare.");
        output.line(&wrapped(&alone, ""))?;
        return Ok(Outcome::Clean);
    };
    let differences = differences(rulebook, base);
    let what = if differences.is_empty() { "nothing." } else { "this:" };
    let opening = format!("{name} extends {} and differs from it in {what}", base.name);
    output.line(&wrapped(&opening, ""))?;
    for difference in differences {
        output.line(&format!("\n{}", painted(STRONG, &difference.about)))?;
        for sentence in difference.sentences {
            output.line(&hanging(&shown(&sentence), "  ", "    "))?;
        }
    }
    Ok(Outcome::Clean)
}

/// The name with the title, if it has another one.
fn called(rulebook: &Rulebook) -> String {
    let (name, title) = (shown(&rulebook.name), shown(&rulebook.title));
    if name == title { name } else { format!("{name} ({title})") }
}

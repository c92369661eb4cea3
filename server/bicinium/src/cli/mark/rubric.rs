//! The rubric that a person names, or what is wrong in it. It must not know what a rubric decides.

use std::path::Path;

use bicinium_coursework::Rubric;

use super::Refused;
use crate::cli::broken::problem;
use crate::cli::lines::Lines;
use crate::disk;

/// What wrong places of a rubric go by.
const RUBRIC: &str = "rubric";

/// The rubric in a file.
pub(super) fn read(path: &Path) -> Result<Rubric, Refused> {
    let name = path.display().to_string();
    let text = disk::read_within(path, disk::LONGEST_RULEBOOK).map_err(|reason| Refused {
        shown: String::new(),
        complaint: format!("The rubric {name} cannot be read: {reason}."),
    })?;
    Rubric::read(&text).map_err(|problems| {
        let lines = Lines::new(&text);
        let told =
            problems.into_iter().map(|it| problem(RUBRIC, &name, &lines, it.range, &it.message));
        Refused {
            shown: told.collect::<Vec<_>>().join("\n"),
            complaint: format!("By the rubric {name} nothing can be marked until this is mended."),
        }
    })
}

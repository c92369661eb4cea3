//! Where the path of a `use` line leads, with all links followed, and whether it may lead there. It
//! must not know what stands in the file.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf, absolute};

use crate::disk;
use crate::workspace::{OUTSIDE, Workspace};

/// Why a sheet cannot use itself, as the end of a sentence.
const ITSELF: &str = "it is this very sheet, whose definitions hold here in any case";

/// The real path of the file that a sheet names, or why it may not use it. The paths on which the
/// answer depends are added to `files`.
pub(super) fn reached(
    own: &Path,
    path: &str,
    workspace: &Workspace,
    files: &mut BTreeSet<PathBuf>,
) -> Result<PathBuf, String> {
    let folder = own.parent().unwrap_or(Path::new(""));
    let named = folder.join(path);
    files.extend(absolute(&named).map(|named| disk::plain(&named)));
    let file = disk::real(&named)?;
    files.insert(file.clone());
    if disk::real(own).is_ok_and(|own| own == file) {
        return Err(ITSELF.to_owned());
    }
    if !workspace.admits(&disk::real(folder)?, &file) {
        return Err(OUTSIDE.to_owned());
    }
    Ok(file)
}

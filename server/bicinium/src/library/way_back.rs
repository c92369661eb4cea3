//! Whether a sheet that is used comes back to the one that uses it, and by which sheets. It must not
//! know what is lent.

use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::reached::reached;
use super::{Contents, Lender};
use crate::disk;

/// How many sheets are looked into at most.
const MOST: usize = 200;

/// The shortest way back from the sheet in the file `first` to the one at `own`, in words; `None` if
/// there is none. The files that were looked into are added to `files`.
pub(super) fn way_back(
    own: &Path,
    first: PathBuf,
    contents: Arc<Contents>,
    lender: &dyn Lender,
    files: &mut BTreeSet<PathBuf>,
) -> Option<String> {
    let own = disk::real(own).ok()?;
    let mut seen_from = BTreeMap::from([(first.clone(), None)]);
    let mut open = VecDeque::from([(first, contents)]);
    while let Some((file, contents)) = open.pop_front() {
        for path in &contents.uses {
            let Ok(next) = reached(&file, path, lender.workspace(), files) else { continue };
            if next == own {
                return Some(told(&file, &seen_from));
            }
            if seen_from.len() < MOST && !seen_from.contains_key(&next) {
                seen_from.insert(next.clone(), Some(file.clone()));
                open.extend(lender.contents(&next).ok().map(|contents| (next, contents)));
            }
        }
    }
    None
}

/// "a.bicinium uses b.bicinium, which uses this sheet".
fn told(last: &Path, seen_from: &BTreeMap<PathBuf, Option<PathBuf>>) -> String {
    let before = |file: &&Path| seen_from.get(*file)?.as_deref();
    let name = |file: &Path| file.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let mut names: Vec<_> = std::iter::successors(Some(last), before).map(name).collect();
    names.reverse();
    names.push("this sheet".to_owned());
    format!("{} uses {}", names[0], names[1..].join(", which uses "))
}

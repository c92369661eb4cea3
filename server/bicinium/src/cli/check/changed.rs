//! Which sheets have changed since a revision, as git knows it: those that differ from it or are not in
//! it, and those that use a sheet or a rulebook that does. It must not know what is found in them.

use std::collections::BTreeSet;
use std::ffi::OsString;
use std::path::{Path, PathBuf, absolute};
use std::process::{Command, Stdio};

use bicinium_analysis::sheet::Unjudged;
use bicinium_grammar::SheetTree;

use crate::cli::sources::Source;
use crate::schools::{Disk, Schools};

/// The files that have changed, by their real paths.
#[derive(Debug)]
pub(super) struct Changed {
    files: BTreeSet<PathBuf>,
}

impl Changed {
    /// What has changed since a revision in the repository of the current folder; or what has to be
    /// said if git cannot tell.
    pub(super) fn since(revision: &str) -> Result<Self, String> {
        let top = git(&["rev-parse", "--show-toplevel"]).map_err(|_| {
            "This folder is in no git repository, or git cannot be started.".to_owned()
        })?;
        let top = PathBuf::from(path(top.strip_suffix(b"\n").unwrap_or(&top)));
        let known = commit(revision).or_else(|| nothing_yet(revision));
        let known = known.ok_or_else(|| format!("git knows no revision {revision}."))?;
        let cannot = |reason: String| format!("git cannot tell what has changed: {reason}");
        let differ = git(&["diff", "--name-only", "--no-renames", "-z", &known, "--"]);
        let new = git(&["ls-files", "--others", "--exclude-standard", "--full-name", "-z", ":/"]);
        let files = [differ.map_err(cannot)?, new.map_err(cannot)?].concat();
        let files = files.split(|byte| *byte == 0).filter(|name| !name.is_empty());
        let files = files.filter_map(|name| std::fs::canonicalize(top.join(path(name))).ok());
        Ok(Self { files: files.collect() })
    }

    /// Whether a sheet, or anything that it takes something from, has changed. What cannot be read is
    /// taken as changed, so that it is told.
    pub(super) fn concerns(&self, source: &Source, schools: &mut Schools) -> bool {
        let own = std::fs::canonicalize(source.path());
        if own.is_err() || own.is_ok_and(|own| self.files.contains(&own)) {
            return true;
        }
        let Ok(text) = source.text() else { return true };
        used(source, &text)
            .chain(rulebooks(source, &text, schools))
            .any(|path| std::fs::canonicalize(path).is_ok_and(|path| self.files.contains(&path)))
    }
}

/// The commit that a revision means.
fn commit(revision: &str) -> Option<String> {
    let commit = format!("{revision}^{{commit}}");
    named(&["rev-parse", "--verify", "--quiet", "--end-of-options", &commit])
}

/// What the last commit holds where there is none yet, and it is asked for: nothing.
fn nothing_yet(revision: &str) -> Option<String> {
    let is_first = revision == "HEAD" && git(&["symbolic-ref", "--quiet", "HEAD"]).is_ok();
    is_first.then(|| named(&["hash-object", "-t", "tree", "--stdin"])).flatten()
}

/// The one name that git prints.
fn named(arguments: &[&str]) -> Option<String> {
    git(arguments).ok().map(|name| String::from_utf8_lossy(&name).trim().to_owned())
}

/// The sheets that a sheet uses.
fn used(source: &Source, text: &str) -> impl Iterator<Item = PathBuf> {
    let folder = source.path().parent().unwrap_or(Path::new(""));
    let sheet = SheetTree::parse(text);
    let uses: Vec<_> = sheet.blocks().iter().flat_map(|block| block.ast().uses()).collect();
    uses.into_iter().map(move |line| folder.join(line.path))
}

/// The files of the rulebooks that a sheet names, with those that they extend.
fn rulebooks(source: &Source, text: &str, schools: &mut Schools) -> BTreeSet<PathBuf> {
    let sheet = Unjudged::new(text);
    let path = absolute(source.path()).ok();
    schools.find(&sheet.rulebooks(), path.as_deref(), &Disk).files
}

/// What git prints, or why it does not.
fn git(arguments: &[&str]) -> Result<Vec<u8>, String> {
    let output = Command::new("git").args(arguments).stdin(Stdio::null()).output();
    let output = output.map_err(|error| error.to_string())?;
    if output.status.success() {
        Ok(output.stdout)
    } else {
        Err(String::from_utf8_lossy(&output.stderr).trim().to_owned())
    }
}

/// A path as git prints it.
#[cfg(unix)]
fn path(bytes: &[u8]) -> OsString {
    use std::os::unix::ffi::OsStrExt;
    std::ffi::OsStr::from_bytes(bytes).to_owned()
}

/// A path as git prints it.
#[cfg(not(unix))]
fn path(bytes: &[u8]) -> OsString {
    String::from_utf8_lossy(bytes).into_owned().into()
}

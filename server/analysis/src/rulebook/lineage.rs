//! The files that lie under a rulebook: it, the one that it extends, the one that this extends, and
//! so on, until one extends nothing or something built in, cannot be found, or begins a circle.
//! Knows how to ask for files, not what any of them decides.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::draft::Draft;
use super::{FILE_END, Rulebook, RulebookProblem, built_in};
use crate::words::joined;

/// Where rulebooks are kept. Only the source knows what lies behind a path.
pub trait Source {
    /// The file that a name or a path in another file means; `None` if there is none.
    fn find(&self, name: &str, from: &Path) -> Option<PathBuf>;

    /// The text of a file, or why it cannot be had, as the end of a sentence.
    fn read(&self, path: &Path) -> Result<String, String>;
}

/// One file of a lineage.
#[derive(Debug)]
pub(super) struct Member {
    pub(super) path: PathBuf,
    pub(super) text: Result<String, String>,
    pub(super) draft: Arc<Draft>,
    pub(super) under: Under,
}

/// What lies under a file.
#[derive(Debug)]
pub(super) enum Under {
    /// Nothing.
    Nothing,
    /// A rulebook that is built in.
    BuiltIn(Arc<Rulebook>),
    /// The next file of the lineage.
    Next,
    /// It cannot be built on, for this reason.
    Problem(RulebookProblem),
}

/// Follows the lineage of a file. `draft` reads the text of a file.
pub(super) fn lineage(
    path: &Path,
    source: &dyn Source,
    mut draft: impl FnMut(&Path, &Result<String, String>) -> Arc<Draft>,
) -> Vec<Member> {
    let mut members: Vec<Member> = Vec::new();
    let mut next = Some(path.to_owned());
    while let Some(path) = next {
        if let Some(first) = members.iter().position(|member| member.path == path) {
            close_circle(&mut members[first..]);
            break;
        }
        let text = source.read(&path);
        let draft = draft(&path, &text);
        let under;
        (under, next) = below(&draft, &path, source);
        members.push(Member { path, text, draft, under });
    }
    members
}

/// What lies under a file, and its path if it is a file.
fn below(draft: &Draft, path: &Path, source: &dyn Source) -> (Under, Option<PathBuf>) {
    let Some(extends) = &draft.extends else { return (Under::Nothing, None) };
    if let Some(rulebook) = built_in::all().get(&extends.text) {
        return (Under::BuiltIn(rulebook.clone()), None);
    }
    if let Some(file) = source.find(&extends.text, path) {
        return (Under::Next, Some(file));
    }
    let message =
        format!("The rulebook {} is not to be found: {}.", extends.text, missing(&extends.text));
    (Under::Problem(RulebookProblem::at(extends.range.clone(), message)), None)
}

/// Why a rulebook cannot be had that is not there, as the end of a sentence.
pub fn missing(name: &str) -> String {
    if is_path(name) {
        return format!("there is no file {name}");
    }
    let near = crate::words::nearest(name, built_in::all().keys().map(String::as_str));
    let near = near.map_or_else(String::new, |near| format!("; perhaps {near} is meant"));
    format!(
        "it is not built in, and there is no file {name}{FILE_END} in this folder or one above{near}"
    )
}

/// Whether a rulebook is named by the path of its file and not by its name.
pub fn is_path(name: &str) -> bool {
    Path::new(name).extension().is_some_and(|end| end.eq_ignore_ascii_case("toml"))
}

/// The name by which sheets find the rulebook in a file.
pub(super) fn name_of(path: &Path) -> String {
    let name = path.file_name().map(|name| name.to_string_lossy()).unwrap_or_default();
    let name = name.strip_suffix(FILE_END).or_else(|| name.strip_suffix(".toml")).unwrap_or(&name);
    name.to_owned()
}

fn close_circle(members: &mut [Member]) {
    let names = names(members);
    for (at, member) in members.iter_mut().enumerate() {
        let Some(extends) = &member.draft.extends else { continue };
        let message = circle(&[&names[at..], &names[..at]].concat());
        member.under = Under::Problem(RulebookProblem::at(extends.range.clone(), message));
    }
}

/// The names of files; their paths where some have the same name.
fn names(members: &[Member]) -> Vec<String> {
    let names: Vec<_> = members.iter().map(|member| name_of(&member.path)).collect();
    let mut different = names.clone();
    different.sort_unstable();
    different.dedup();
    if different.len() == names.len() {
        return names;
    }
    members.iter().map(|member| member.path.display().to_string()).collect()
}

fn circle(names: &[String]) -> String {
    let advice = "Let it extend one that stands by itself, such as `tonal` or `modal`.";
    let Some(first) = names.first().filter(|_| names.len() > 1) else {
        return format!("This rulebook extends itself. {advice}");
    };
    let nexts = names.iter().skip(1).chain([first]);
    let links: Vec<_> =
        names.iter().zip(nexts).map(|(name, next)| format!("{name} extends {next}")).collect();
    format!("Going round in a circle, {}. {advice}", joined(&links, "and"))
}

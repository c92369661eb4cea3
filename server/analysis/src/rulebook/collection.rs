//! All rulebooks that were read from somewhere, kept up to date. While a rulebook cannot be set up,
//! the last one from the same file that could stays in force. Knows no sheet, and files only through
//! its source.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::draft::Draft;
use super::lineage::{Member, Source, Under, lineage, name_of};
use super::set_up::Base;
use super::{Rulebook, RulebookProblem};

/// Rulebooks by their files.
#[derive(Debug, Default)]
pub struct Collection {
    held: BTreeMap<PathBuf, Held>,
}

/// What is known of the rulebook in a file.
#[derive(Debug)]
pub struct Held {
    /// The text of the file; `None` if it cannot be read.
    pub text: Option<String>,
    /// What is wrong with it, in the order of the text.
    pub problems: Vec<RulebookProblem>,
    /// The rulebook, as it was when it was last whole; `None` if it never was.
    pub in_force: Option<Arc<Rulebook>>,
    draft: Arc<Draft>,
    base: Base,
}

impl Collection {
    /// Brings a file and those under it up to date, and returns the paths of them all, its own
    /// first.
    pub fn look_up(&mut self, path: &Path, source: &dyn Source) -> Vec<PathBuf> {
        let members = lineage(path, source, |path, text| self.draft(path, text));
        let paths: Vec<_> = members.iter().map(|member| member.path.clone()).collect();
        let mut below: Option<PathBuf> = None;
        for member in members.into_iter().rev() {
            let base = self.base(&member, below.as_deref());
            below = Some(member.path.clone());
            self.settle(member, base);
        }
        paths
    }

    /// What is known of the rulebook in a file that was looked up.
    pub fn held(&self, path: &Path) -> Option<&Held> {
        self.held.get(path)
    }

    /// The draft of a text; the same as before if the text is.
    fn draft(&self, path: &Path, text: &Result<String, String>) -> Arc<Draft> {
        let known = self.held.get(path);
        match text {
            Ok(text) => match known.filter(|held| held.text.as_ref() == Some(text)) {
                Some(held) => held.draft.clone(),
                None => Arc::new(Draft::read(text)),
            },
            Err(reason) => Arc::new(Draft::out_of_reach(reason)),
        }
    }

    fn base(&self, member: &Member, below: Option<&Path>) -> Base {
        match &member.under {
            Under::Nothing => Ok(None),
            Under::BuiltIn(rulebook) => Ok(Some(rulebook.clone())),
            Under::Problem(problem) => Err(problem.clone()),
            Under::Next => {
                let base = below.and_then(|path| self.held.get(path)?.in_force.clone());
                base.map(Some).ok_or_else(|| broken_base(&member.draft))
            }
        }
    }

    fn settle(&mut self, member: Member, base: Base) {
        let old = self.held.remove(&member.path);
        let is_same =
            |old: &Held| Arc::ptr_eq(&old.draft, &member.draft) && is_same(&old.base, &base);
        let held = match old {
            Some(old) if is_same(&old) => old,
            old => {
                let set_up = Rulebook::set_up(&member.draft, &name_of(&member.path), base.clone());
                let last = old.and_then(|old| old.in_force);
                let (in_force, problems) = match set_up {
                    Ok(rulebook) => (Some(renewed(rulebook, last)), Vec::new()),
                    Err(problems) => (last, problems),
                };
                let text = member.text.ok();
                Held { text, problems, in_force, draft: member.draft, base }
            }
        };
        self.held.insert(member.path, held);
    }
}

/// The rulebook that was in force, if nothing has changed that matters; so nothing is judged again
/// for a comment.
fn renewed(rulebook: Rulebook, last: Option<Arc<Rulebook>>) -> Arc<Rulebook> {
    last.filter(|last| last.is_like(&rulebook)).unwrap_or_else(|| Arc::new(rulebook))
}

fn is_same(one: &Base, other: &Base) -> bool {
    match (one, other) {
        (Ok(Some(one)), Ok(Some(other))) => Arc::ptr_eq(one, other),
        (Ok(None), Ok(None)) => true,
        (Err(one), Err(other)) => one == other,
        _ => false,
    }
}

fn broken_base(draft: &Draft) -> RulebookProblem {
    let (name, range) = match &draft.extends {
        Some(extends) => (extends.text.as_str(), extends.range.clone()),
        None => ("", 0..0),
    };
    let message = format!(
        "The rulebook {name}, which this one extends, has problems of its own. Mend those first."
    );
    RulebookProblem::at(range, message)
}

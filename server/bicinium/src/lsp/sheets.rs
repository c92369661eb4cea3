//! All sheets that a client may mean: those that are open as they are on screen, the others in its
//! folders as they are on disk. Nothing is judged for it.
//!
//! It must not know what is looked for in them.

use std::collections::{BTreeMap, HashMap};
use std::ops::Range;
use std::path::PathBuf;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use bicinium_grammar::SheetTree;
use tower_lsp::lsp_types::Url;

use super::library::{beside, normal};
use super::text::Text;
use crate::workspace::Workspace;
use crate::{disk, folders, library};

/// A sheet as it is now.
#[derive(Clone)]
pub(super) struct Written {
    /// Its address, as the client has it.
    pub(super) uri: Url,
    /// Its text.
    pub(super) text: Text,
    /// The version that the client gave it; `None` if it is not open.
    pub(super) version: Option<i32>,
    /// Its tree, for [`Written::tree`].
    pub(super) tree: Parsed,
}

/// The tree of a text, made when it is first asked for. Copies share it.
#[derive(Clone, Default)]
pub(super) struct Parsed(Arc<OnceLock<SheetTree>>);

impl Parsed {
    /// Follows an edit of the text. While somebody reads the tree it is left to them, and another one
    /// is made when it is needed.
    pub(super) fn edit(&mut self, replaced: &Range<usize>, insert: &str) {
        match Arc::get_mut(&mut self.0).and_then(OnceLock::get_mut) {
            Some(tree) => {
                tree.edit(replaced.clone(), insert);
            }
            None => *self = Self::default(),
        }
    }
}

impl Written {
    /// Whether it is the same sheet as when it was asked for before, with the tree that was made of it.
    pub(super) fn is_still(&self, before: &Written) -> bool {
        Arc::ptr_eq(&self.tree.0, &before.tree.0)
    }

    /// Its tree.
    pub(super) fn tree(&self) -> &SheetTree {
        self.tree.0.get_or_init(|| SheetTree::parse(&self.text.to_string()))
    }
}

/// The sheets that are not open, as they were last read: what is made of one is kept until its file says something
/// else. Copies are the same.
#[derive(Clone, Default)]
pub(super) struct Closed(Arc<Mutex<HashMap<Url, Written>>>);

impl Closed {
    /// The sheet in a file as it is now; `None` if it cannot be read.
    pub(super) fn at(&self, uri: &Url) -> Option<Written> {
        let text = uri.to_file_path().ok().and_then(|path| disk::read(&path).ok());
        let mut known = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let kept = known.remove(uri);
        let text = text?;
        let written = kept.filter(|kept| kept.text == *text).unwrap_or_else(|| Written {
            uri: uri.clone(),
            text: Text::from(&*text),
            version: None,
            tree: Parsed::default(),
        });
        known.insert(uri.clone(), written.clone());
        Some(written)
    }
}

/// Where sheets are looked for.
pub(super) struct Sheets {
    open: BTreeMap<Url, Written>,
    closed: Closed,
    folders: Vec<PathBuf>,
    workspace: Workspace,
}

impl Sheets {
    /// The open sheets and those below some folders; each may use what the workspace admits.
    pub(super) fn new(
        open: Vec<Written>,
        closed: Closed,
        folders: Vec<PathBuf>,
        workspace: Workspace,
    ) -> Self {
        let open = open.into_iter().map(|sheet| (normal(&sheet.uri), sheet)).collect();
        Sheets { open, closed, folders, workspace }
    }

    /// The sheet at an address; `None` if it cannot be read.
    pub(super) fn at(&self, uri: &Url) -> Option<Written> {
        let uri = normal(uri);
        self.open.get(&uri).cloned().or_else(|| self.closed.at(&uri))
    }

    /// The sheet that another one names in a `use` line; `None` if it may not, or if it cannot be read.
    pub(super) fn used(&self, sheet: &Url, path: &str) -> Option<Written> {
        library::file(&sheet.to_file_path().ok()?, path, &self.workspace).ok()?;
        self.at(&beside(sheet, path)?)
    }

    /// All of them: the open ones, then the others.
    pub(super) fn all(&self) -> impl Iterator<Item = Written> + '_ {
        let others = in_folders(&self.folders).into_keys();
        let others = others.filter(|uri| !self.open.contains_key(uri));
        self.open.values().cloned().chain(others.filter_map(|uri| self.at(&uri)))
    }
}

/// The sheets in some folders, each once, by the addresses that they have there.
pub(super) fn in_folders(folders: &[PathBuf]) -> BTreeMap<Url, PathBuf> {
    // What cannot be searched holds no sheet that could be told of.
    let found = folders.iter().flat_map(|folder| folders::sheets(folder).flatten());
    found.filter_map(|path| Some((Url::from_file_path(&path).ok()?, path))).collect()
}

#[cfg(test)]
mod tests {
    use bicinium_grammar::SheetTree;

    use super::{Closed, Parsed, Text, Url, Written};

    fn written(text: &str, tree: &Parsed) -> Written {
        let uri = Url::parse("file:///sheet.bicinium").unwrap();
        Written { uri, text: Text::from(text), version: Some(1), tree: tree.clone() }
    }

    #[test]
    fn the_tree_follows_the_text_whether_somebody_reads_it_or_not() {
        let mut text = "cantus one\n  line | C4 |\nexercise\n".to_owned();
        let mut tree = Parsed::default();
        let mut reader = None;
        for (at, insert) in [(7, "quay-"), (0, "\n"), (0, "// \u{266D}\n")] {
            assert_eq!(*written(&text, &tree).tree(), SheetTree::parse(&text), "{text}");
            tree.edit(&(at..at), insert);
            text.insert_str(at, insert);
            // From now on somebody reads an older tree.
            reader = reader.or_else(|| Some(written(&text, &tree)));
        }
        assert_eq!(*written(&text, &tree).tree(), SheetTree::parse(&text));
    }

    #[test]
    fn a_sheet_that_is_not_open_is_kept_until_its_file_says_something_else() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.bicinium");
        let uri = Url::from_file_path(&path).unwrap();
        let closed = Closed::default();
        let read = |text: &str| {
            std::fs::write(&path, text).unwrap();
            closed.at(&uri).unwrap()
        };
        let first = read("cantus one\n  line | C4 |\n");
        assert!(read("cantus one\n  line | C4 |\n").is_still(&first));
        let other = read("cantus two\n  line | C4 |\n");
        assert!(!other.is_still(&first));
        assert!(other.text == *"cantus two\n  line | C4 |\n");
        std::fs::remove_file(&path).unwrap();
        assert!(closed.at(&uri).is_none());
        assert!(!read("cantus two\n  line | C4 |\n").is_still(&other));
    }
}

//! All sheets that a client may mean: those that are open as they are on screen, the others in its
//! folders as they are on disk. Nothing is judged for it.
//!
//! It must not know what is looked for in them.

use std::collections::BTreeMap;
use std::path::PathBuf;

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
}

/// Where sheets are looked for.
pub(super) struct Sheets {
    open: BTreeMap<Url, Written>,
    folders: Vec<PathBuf>,
    workspace: Workspace,
}

impl Sheets {
    /// The open sheets and those below some folders; each may use what the workspace admits.
    pub(super) fn new(open: Vec<Written>, folders: Vec<PathBuf>, workspace: Workspace) -> Self {
        let open = open.into_iter().map(|sheet| (normal(&sheet.uri), sheet)).collect();
        Sheets { open, folders, workspace }
    }

    /// The sheet at an address; `None` if it cannot be read.
    pub(super) fn at(&self, uri: &Url) -> Option<Written> {
        let uri = normal(uri);
        self.open.get(&uri).cloned().or_else(|| {
            let text = disk::read(&uri.to_file_path().ok()?).ok()?;
            Some(Written { uri, text: Text::from(&*text), version: None })
        })
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

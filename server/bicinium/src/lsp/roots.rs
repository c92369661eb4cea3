//! The folders that the client has open, as it says when it begins and whenever it adds or removes
//! one.
//!
//! It must not know what is in them.

use std::path::PathBuf;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use tower_lsp::lsp_types::{InitializeParams, Url, WorkspaceFoldersChangeEvent};

/// The folders. Copies are the same.
#[derive(Debug, Clone, Default)]
pub(super) struct Roots {
    folders: Arc<Mutex<Vec<PathBuf>>>,
}

impl Roots {
    /// Takes those that a client begins with: its folders, or else the one root of older clients.
    pub(super) fn begin(&self, params: &InitializeParams) {
        let folders = params.workspace_folders.iter().flatten().map(|folder| &folder.uri);
        let mut paths: Vec<_> = folders.filter_map(path).collect();
        if paths.is_empty() {
            paths.extend(params.root_uri.as_ref().and_then(path));
        }
        *self.lock() = paths;
    }

    /// Takes note of added and removed ones.
    pub(super) fn change(&self, event: &WorkspaceFoldersChangeEvent) {
        let removed: Vec<_> = event.removed.iter().filter_map(|it| path(&it.uri)).collect();
        let mut folders = self.lock();
        folders.retain(|known| !removed.contains(known));
        for added in event.added.iter().filter_map(|it| path(&it.uri)) {
            if !folders.contains(&added) {
                folders.push(added);
            }
        }
    }

    /// The folders as they are now.
    pub(super) fn folders(&self) -> Vec<PathBuf> {
        self.lock().clone()
    }

    fn lock(&self) -> MutexGuard<'_, Vec<PathBuf>> {
        self.folders.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

fn path(uri: &Url) -> Option<PathBuf> {
    uri.to_file_path().ok()
}

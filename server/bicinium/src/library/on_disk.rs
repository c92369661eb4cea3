//! Other sheets as they are on disk, each read once however many use it. It must not know who
//! borrows.

use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use super::{Contents, Lender};
use crate::disk;
use crate::schools::{Disk, Files};
use crate::workspace::Workspace;

/// Sheets and rulebooks on disk; sheets as they were when first asked for.
#[derive(Debug, Default)]
pub struct OnDisk {
    workspace: Workspace,
    known: Mutex<HashMap<PathBuf, Result<Arc<Contents>, String>>>,
}

impl OnDisk {
    /// Those of a workspace; none has been read yet.
    pub fn new(workspace: Workspace) -> Self {
        Self { workspace, known: Mutex::default() }
    }
}

impl Files for OnDisk {
    fn admits(&self, from: &Path, file: &Path) -> bool {
        self.workspace.admits_beside(from, file)
    }

    fn is_there(&self, path: &Path) -> bool {
        Disk.is_there(path)
    }

    fn read(&self, path: &Path) -> Result<String, String> {
        Disk.read(path)
    }
}

impl Lender for OnDisk {
    fn contents(&self, file: &Path) -> Result<Arc<Contents>, String> {
        let mut known = self.known.lock().unwrap_or_else(PoisonError::into_inner);
        let read = || disk::read(file).map(|text| Arc::new(Contents::of(&text)));
        known.entry(file.to_owned()).or_insert_with(read).clone()
    }

    fn workspace(&self) -> &Workspace {
        &self.workspace
    }
}

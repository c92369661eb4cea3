//! A sheet as it is at the moment: read and judged again whenever its file changes. Knows nothing of
//! who looks on.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{Duration, SystemTime};

use bicinium_analysis::Snapshot;
use bicinium_analysis::sheet::Unjudged;
use tokio::sync::watch;

use crate::disk;
use crate::library::{Loans, OnDisk};
use crate::schools::{Disk, Schools};
use crate::workspace::Workspace;

/// A sheet as it was at some moment.
#[derive(Clone, Debug)]
pub struct Edition {
    /// How many there have been before it.
    pub number: u64,
    /// The name of the file.
    pub name: String,
    /// The sheet, judged; or why it cannot be read.
    pub sheet: Result<Arc<Snapshot>, String>,
}

/// All editions, the newest first.
pub type Editions = watch::Receiver<Arc<Edition>>;

/// How long it takes at most until a change is seen.
const PAUSE: Duration = Duration::from_millis(40);

/// The editions of a file, from now until nobody wants them any more.
pub(super) fn editions(path: PathBuf, workspace: Workspace) -> Editions {
    let (sender, receiver) = watch::channel(Arc::new(edition(&path, 0, &workspace)));
    tokio::spawn(async move {
        let mut seen = trace(&path);
        let mut number = 0;
        while !sender.is_closed() {
            tokio::time::sleep(PAUSE).await;
            let now = trace(&path);
            if now == seen {
                continue;
            }
            seen = now;
            number += 1;
            let (path, workspace) = (path.clone(), workspace.clone());
            let judged = move || edition(&path, number, &workspace);
            let judged = tokio::task::spawn_blocking(judged).await;
            if let Ok(edition) = judged {
                sender.send_replace(Arc::new(edition));
            }
        }
    });
    receiver
}

/// What changes when a file does.
fn trace(path: &Path) -> Option<(SystemTime, u64)> {
    let about = std::fs::metadata(path).ok()?;
    Some((about.modified().ok()?, about.len()))
}

fn edition(path: &Path, number: u64, workspace: &Workspace) -> Edition {
    let name = path.file_name().map(|name| name.to_string_lossy().into_owned());
    let sheet = disk::read(path).map(|text| judged(path, &text, workspace));
    Edition { number, name: name.unwrap_or_default(), sheet }
}

/// The sheet with what it takes from others, by the rulebooks that it names.
fn judged(path: &Path, text: &str, workspace: &Workspace) -> Arc<Snapshot> {
    let sheet = Unjudged::new(text);
    let lender = OnDisk::new(workspace.clone());
    let imports = Loans::default().begin(&sheet, Some(path), &lender);
    let absolute = std::path::absolute(path).ok();
    let found = Schools::default().find(&sheet.rulebooks(), absolute.as_deref(), &Disk);
    sheet.judge(imports, found.shelf).snapshot()
}

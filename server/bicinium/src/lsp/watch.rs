//! Asks the client to tell when a sheet or a rulebook changes on disk.
//!
//! It must not know what is done about it.

use std::time::Duration;

use tower_lsp::Client;
use tower_lsp::lsp_types::notification::{DidChangeWatchedFiles, Notification};
use tower_lsp::lsp_types::{
    DidChangeWatchedFilesRegistrationOptions, FileSystemWatcher, GlobPattern, Registration,
};

/// How long a client may think about it.
const PATIENCE: Duration = Duration::from_secs(60);
/// Sheets, and rulebooks, which a sheet may also name by a path of another ending.
const FILES: [&str; 2] = ["**/*.bicinium", "**/*.toml"];

/// Asks, and goes without if the client declines or does not answer.
pub(super) async fn watch(client: Client) {
    let asked = client.register_capability(vec![registration()]);
    let _ = tokio::time::timeout(PATIENCE, asked).await;
}

fn registration() -> Registration {
    let watcher = |files: &str| FileSystemWatcher {
        glob_pattern: GlobPattern::String(files.to_owned()),
        kind: None,
    };
    let watchers = FILES.into_iter().map(watcher).collect();
    let options = DidChangeWatchedFilesRegistrationOptions { watchers };
    Registration {
        id: "files".to_owned(),
        method: DidChangeWatchedFiles::METHOD.to_owned(),
        register_options: serde_json::to_value(options).ok(),
    }
}

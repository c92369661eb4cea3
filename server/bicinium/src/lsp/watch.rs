//! Asks the client to tell when a sheet or a rulebook changes on disk, or a setting.
//!
//! It must not know what is done about it.

use std::sync::Arc;
use std::time::Duration;

use serde_json::json;
use tower_lsp::Client;
use tower_lsp::lsp_types::notification::{
    DidChangeConfiguration, DidChangeWatchedFiles, Notification,
};
use tower_lsp::lsp_types::{
    DidChangeWatchedFilesRegistrationOptions, FileSystemWatcher, GlobPattern, Registration,
};

use super::client::{Ability, ClientProfile};
use super::settings::SECTION;

/// How long a client may think about it.
const PATIENCE: Duration = Duration::from_secs(60);
/// Sheets, and rulebooks, which a sheet may also name by a path of another ending.
const FILES: [&str; 2] = ["**/*.bicinium", "**/*.toml"];

/// Asks, and goes without if the client declines or does not answer.
pub(super) async fn watch(client: Client, profile: Arc<ClientProfile>) {
    let files = profile.can(Ability::WatchedFiles).then(files);
    let settings = profile.can(Ability::ConfigurationNotice).then(settings);
    let wanted: Vec<_> = files.into_iter().chain(settings).collect();
    if wanted.is_empty() {
        return;
    }
    let asked = client.register_capability(wanted);
    let _ = tokio::time::timeout(PATIENCE, asked).await;
}

fn settings() -> Registration {
    Registration {
        id: "settings".to_owned(),
        method: DidChangeConfiguration::METHOD.to_owned(),
        register_options: Some(json!({"section": SECTION})),
    }
}

fn files() -> Registration {
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

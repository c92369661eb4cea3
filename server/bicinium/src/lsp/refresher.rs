//! Tells a client that asks for diagnostics itself when they may have changed for a reason that it
//! cannot see: another sheet or a rulebook.
//!
//! It must not know which documents are concerned; the protocol has no way to say it.

use std::time::Duration;

use tokio::sync::mpsc::{UnboundedReceiver, UnboundedSender, unbounded_channel};
use tower_lsp::Client;

/// How long a client may think about it.
const PATIENCE: Duration = Duration::from_secs(60);

/// Where it is said that diagnostics may have changed. Copies lead to the same client.
#[derive(Clone)]
pub(super) struct Refresher {
    queue: UnboundedSender<()>,
}

impl Refresher {
    /// A refresher for a client. It has to be made within a Tokio runtime.
    pub(super) fn new(client: Client) -> Self {
        let (queue, wishes) = unbounded_channel();
        tokio::spawn(serve(wishes, client));
        Refresher { queue }
    }

    /// Says that diagnostics may have changed.
    pub(super) fn wish(&self) {
        let _ = self.queue.send(());
    }
}

/// Tells the client one thing at a time; what is wished meanwhile is told once.
async fn serve(mut wishes: UnboundedReceiver<()>, client: Client) {
    while wishes.recv().await.is_some() {
        while wishes.try_recv().is_ok() {}
        let _ = tokio::time::timeout(PATIENCE, client.workspace_diagnostic_refresh()).await;
    }
}

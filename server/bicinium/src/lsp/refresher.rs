//! Tells a client that asks for things itself when they may have changed for a reason that it cannot
//! see: another sheet, a rulebook or what is set.
//!
//! It must not know which documents are concerned; the protocol has no way to say it.

use std::time::Duration;

use tokio::sync::mpsc::{UnboundedReceiver, UnboundedSender, unbounded_channel};
use tokio::time::timeout;
use tower_lsp::Client;

use super::client::{Ability, ClientProfile};

/// How long a client may think about it.
const PATIENCE: Duration = Duration::from_secs(60);

/// What a client may have to ask for again, by its ability to do so.
const AGAIN: [Ability; 4] =
    [Ability::DiagnosticRefresh, Ability::LensRefresh, Ability::HintRefresh, Ability::TokenRefresh];

/// Where it is said that something may have changed. Copies lead to the same client.
#[derive(Clone)]
pub(super) struct Refresher {
    queue: UnboundedSender<Vec<Ability>>,
}

impl Refresher {
    /// A refresher for a client. It has to be made within a Tokio runtime.
    pub(super) fn new(client: Client) -> Self {
        let (queue, wishes) = unbounded_channel();
        tokio::spawn(serve(wishes, client));
        Refresher { queue }
    }

    /// Says that whatever is shown of the documents may have changed.
    pub(super) fn wish(&self, client: &ClientProfile) {
        let wishes: Vec<_> = AGAIN.into_iter().filter(|it| client.can(*it)).collect();
        if !wishes.is_empty() {
            let _ = self.queue.send(wishes);
        }
    }
}

/// Tells the client one thing at a time; what is wished meanwhile is told once.
async fn serve(mut queue: UnboundedReceiver<Vec<Ability>>, client: Client) {
    while let Some(mut wishes) = queue.recv().await {
        while let Ok(later) = queue.try_recv() {
            wishes.extend(later);
        }
        wishes.sort_unstable();
        wishes.dedup();
        for wish in wishes {
            let _ = timeout(PATIENCE, tell(&client, wish)).await;
        }
    }
}

async fn tell(client: &Client, wish: Ability) {
    let _ = match wish {
        Ability::LensRefresh => client.code_lens_refresh().await,
        Ability::HintRefresh => client.inlay_hint_refresh().await,
        Ability::TokenRefresh => client.semantic_tokens_refresh().await,
        _ => client.workspace_diagnostic_refresh().await,
    };
}

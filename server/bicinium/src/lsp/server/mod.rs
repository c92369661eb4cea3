//! The server as one client sees it: what it is made of.
//!
//! `methods` is the list of what the protocol asks, `newer_methods` of what its types do not know;
//! `asking` is how an answer is found without keeping anybody waiting.

mod asking;
mod methods;
mod newer_methods;

use std::sync::{Arc, OnceLock};

use tower_lsp::Client;
use tower_lsp::lsp_types as lsp;

use super::alarm;
use super::client::ClientProfile;
use super::commands::Commands;
use super::configuration::Configuration;
use super::documents::{Documents, Told};
use super::foresight::{self, Foresight};
use super::painted::Sent;
use super::publisher::Publisher;
use super::refresher::Refresher;
use super::roots::Roots;
use super::score_pages::ScorePages;
use super::settings::InForce;
use super::shown::Shown;
use super::transport::Outbox;

/// The server as one client sees it.
pub(in crate::lsp) struct Server {
    client: Client,
    profile: OnceLock<Arc<ClientProfile>>,
    documents: Arc<Documents>,
    settings: InForce,
    roots: Roots,
    configuration: Configuration,
    tokens: Sent,
    commands: Commands,
    scores: ScorePages,
}

impl Server {
    /// A server for this client, to which diagnostics go by way of the outbox. It has to be made
    /// within a Tokio runtime.
    pub(in crate::lsp) fn new(client: Client, outbox: Outbox) -> Self {
        alarm::set(client.clone());
        let publisher = Publisher::new(move |shown: Shown| outbox.send_body(shown.message()));
        let (settings, roots) = (InForce::default(), Roots::default());
        let refresher = Refresher::new(client.clone());
        let (foresight, unseen) = Foresight::new();
        let scores = ScorePages::new(client.clone());
        let told = Told { publisher, refresher, foresight, scores: scores.clone() };
        let documents = Documents::new(told, settings.clone(), roots.clone());
        let documents = Arc::new(documents);
        tokio::spawn(foresight::look(unseen, Arc::downgrade(&documents)));
        let configuration = Configuration::new(client.clone(), settings.clone(), documents.clone());
        let (tokens, commands) = (Sent::default(), Commands::default());
        let profile = OnceLock::new();
        Server {
            client,
            profile,
            documents,
            settings,
            roots,
            configuration,
            tokens,
            commands,
            scores,
        }
    }

    /// What the client can do; nothing as long as it has not said so.
    fn profile(&self) -> Arc<ClientProfile> {
        let nothing = || Arc::new(ClientProfile::new(&lsp::ClientCapabilities::default()));
        self.profile.get_or_init(nothing).clone()
    }
}

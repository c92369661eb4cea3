//! How settings reach the server: with the greeting, by notice of a change, or by asking the client
//! where it can be asked. What is new holds at once, for all that is open.
//!
//! It must not know what is set.

use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

use serde_json::Value;
use tower_lsp::Client;
use tower_lsp::lsp_types::{ConfigurationItem, MessageType};

use super::client::{Ability, ClientProfile};
use super::documents::Documents;
use super::settings::{InForce, SECTION, Settings};

/// How long a client may think about it.
const PATIENCE: Duration = Duration::from_secs(60);

/// The settings on their way. Copies are the same.
#[derive(Clone)]
pub(super) struct Configuration {
    client: Client,
    in_force: InForce,
    documents: Arc<Documents>,
    /// What is to be told as soon as the client may be spoken to.
    early: Arc<Mutex<Vec<String>>>,
}

impl Configuration {
    /// The settings that are in force for these documents.
    pub(super) fn new(client: Client, in_force: InForce, documents: Arc<Documents>) -> Self {
        Configuration { client, in_force, documents, early: Arc::default() }
    }

    /// Takes what the greeting says.
    pub(super) fn greet(&self, options: Option<&Value>) {
        let complaints = options.map(|options| self.take(options)).unwrap_or_default();
        self.early.lock().unwrap_or_else(PoisonError::into_inner).extend(complaints);
    }

    /// Tells what was wrong with the greeting, and asks for what is set elsewhere.
    pub(super) fn begin(&self, profile: &ClientProfile) {
        let mut early = self.early.lock().unwrap_or_else(PoisonError::into_inner);
        let complaints = std::mem::take(&mut *early);
        let (this, can_ask) = (self.clone(), profile.can(Ability::Configuration));
        tokio::spawn(async move {
            this.tell(complaints).await;
            if can_ask {
                this.ask().await;
            }
        });
    }

    /// Takes what has changed, or asks for it where the client can be asked.
    pub(super) fn changed(&self, said: &Value, profile: &ClientProfile) {
        let (this, can_ask) = (self.clone(), profile.can(Ability::Configuration));
        if can_ask {
            tokio::spawn(async move { this.ask().await });
        } else {
            let complaints = self.take(said);
            tokio::spawn(async move { this.tell(complaints).await });
        }
    }

    async fn ask(&self) {
        let section = Some(SECTION.to_owned());
        let item = ConfigurationItem { scope_uri: None, section };
        let asked = self.client.configuration(vec![item]);
        if let Ok(Ok(said)) = tokio::time::timeout(PATIENCE, asked).await {
            let complaints = said.iter().flat_map(|said| self.take(said)).collect();
            self.tell(complaints).await;
        }
    }

    /// Puts in force what is said, and returns what is wrong with it.
    fn take(&self, said: &Value) -> Vec<String> {
        let old = self.in_force.now();
        let (mut new, mut complaints) = old.with(said);
        if new.rulebook != old.rulebook {
            complaints.extend(self.checked(&mut new, &old));
        }
        if self.in_force.put(new) {
            self.documents.begin_anew();
        }
        complaints
    }

    /// Leaves the rulebook as it was if there is none of the new name.
    fn checked(&self, new: &mut Settings, old: &Settings) -> Option<String> {
        let name = new.rulebook.clone()?;
        let refusal = self.documents.refuses_rulebook(&name)?;
        new.rulebook.clone_from(&old.rulebook);
        Some(format!("{refusal} The rulebook that was set before still holds."))
    }

    async fn tell(&self, complaints: Vec<String>) {
        for complaint in complaints {
            self.client.show_message(MessageType::WARNING, complaint).await;
        }
    }
}

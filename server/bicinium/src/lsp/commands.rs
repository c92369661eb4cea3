//! What a client can have done by name: filling an exercise. It may take longer than an answer to a
//! question, tells how far it has come, and can be cancelled.
//!
//! It must not know how an exercise is filled.

use std::cell::Cell;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

use bicinium_realizer::Budget;
use serde_json::Value;
use tower_lsp::Client;
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::request::WorkDoneProgressCreate;
use tower_lsp::lsp_types::{
    MessageType, ProgressToken, Url, WorkDoneProgressCancelParams, WorkDoneProgressCreateParams,
    WorkspaceEdit,
};

use super::client::{Ability, ClientProfile};
use super::convert;
use super::documents::Documents;
use super::telling::Telling;
use crate::features::realizing::{best_way, edits};
use crate::searching::{For, search};

/// The name of the command that fills an exercise; it takes the address of the sheet and the number of
/// the exercise in it.
pub(super) const FILL: &str = "bicinium.fill";

/// How long somebody may wait who wants an exercise filled.
const PATIENT: Budget = Budget { trials: 5_000_000, time: Duration::from_secs(30) };

/// What is being done, so that it can be cancelled.
#[derive(Debug, Default)]
pub(super) struct Commands {
    running: Mutex<Vec<(ProgressToken, Arc<AtomicBool>)>>,
    begun: AtomicU32,
}

/// What has become of a command.
enum Outcome {
    Edit(WorkspaceEdit),
    Told(&'static str),
}

impl Commands {
    /// Fills an exercise in the best way.
    pub(super) async fn fill(
        &self,
        arguments: &[Value],
        token: Option<ProgressToken>,
        documents: &Documents,
        client: &Client,
        profile: Arc<ClientProfile>,
    ) -> Result<()> {
        let (uri, number) = target(arguments)?;
        let Some((question, asked)) = documents.question(&uri) else {
            let closed = "The sheet is not open any more; nothing was filled.";
            client.show_message(MessageType::INFO, closed).await;
            return Ok(());
        };
        let judged = asked.await.map_err(|_| Error::internal_error())?;
        let token = self.token(token, client, &profile).await;
        let given_up = question.given_up();
        self.note(token.as_ref(), &given_up);
        let teller = (client.clone(), token.clone());
        let work = move || {
            let telling = Telling::begin(teller.0, teller.1, "Filling the exercise", true);
            let told = Cell::new(0);
            let progress = |share: f64| {
                let percentage = percentage(share);
                if told.replace(percentage) != percentage {
                    telling.done(percentage, None);
                }
            };
            let mut exercises = judged.snapshot.exercises();
            let (_, block, exercise) = exercises.find(|known| known.0 == number)?;
            let way = best_way(&block.judged, PATIENT, &given_up, &progress);
            Some(match way {
                Some(way) => {
                    let changes = edits(block, exercise, &way);
                    Outcome::Edit(convert::edit::workspace_edit(&judged, &uri, changes, &profile))
                }
                None if given_up.load(Ordering::Relaxed) => {
                    Outcome::Told("The search was ended; nothing was filled.")
                }
                None => Outcome::Told("No way to fill this exercise was found."),
            })
        };
        let outcome = search(For::Ahead, work).await.ok_or_else(Error::internal_error)?;
        self.forget(token.as_ref());
        match outcome {
            Some(Outcome::Edit(_)) if question.is_overtaken() => Err(Error::content_modified()),
            Some(Outcome::Edit(edit)) => apply(client, edit).await,
            Some(Outcome::Told(message)) => {
                client.show_message(MessageType::INFO, message).await;
                Ok(())
            }
            None => Err(Error::invalid_params(format!("There is no exercise {number}."))),
        }
    }

    /// Ends what is done under a token.
    pub(super) fn cancel(&self, params: WorkDoneProgressCancelParams) {
        let token = params.token;
        let running = self.running.lock().unwrap_or_else(PoisonError::into_inner);
        let meant = running.iter().filter(|known| known.0 == token);
        meant.for_each(|known| known.1.store(true, Ordering::Relaxed));
    }

    /// The token of the client, or one of our own, if it takes that.
    async fn token(
        &self,
        given: Option<ProgressToken>,
        client: &Client,
        profile: &ClientProfile,
    ) -> Option<ProgressToken> {
        if given.is_some() || !profile.can(Ability::Progress) {
            return given;
        }
        let number = self.begun.fetch_add(1, Ordering::Relaxed);
        let token = ProgressToken::String(format!("{FILL}/{number}"));
        let params = WorkDoneProgressCreateParams { token: token.clone() };
        let answer = client.send_request::<WorkDoneProgressCreate>(params).await;
        answer.is_ok().then_some(token)
    }

    fn note(&self, token: Option<&ProgressToken>, given_up: &Arc<AtomicBool>) {
        let mut running = self.running.lock().unwrap_or_else(PoisonError::into_inner);
        running.extend(token.map(|token| (token.clone(), given_up.clone())));
    }

    fn forget(&self, token: Option<&ProgressToken>) {
        let mut running = self.running.lock().unwrap_or_else(PoisonError::into_inner);
        running.retain(|known| Some(&known.0) != token);
    }
}

async fn apply(client: &Client, edit: WorkspaceEdit) -> Result<()> {
    let answer = client.apply_edit(edit).await?;
    if !answer.applied {
        let message = "The editor did not take the notes; the sheet is as it was.";
        client.show_message(MessageType::INFO, message).await;
    }
    Ok(())
}

/// The sheet and the number of the exercise that a command is about.
fn target(arguments: &[Value]) -> Result<(Url, usize)> {
    let uri = arguments.first().and_then(Value::as_str).and_then(|uri| Url::parse(uri).ok());
    let number = arguments.get(1).and_then(Value::as_u64);
    let number = number.and_then(|number| usize::try_from(number).ok());
    let wanted = || {
        let wanted = "it takes the address of a sheet and the number of an exercise";
        Error::invalid_params(format!("{FILL}: {wanted}"))
    };
    uri.zip(number).ok_or_else(wanted)
}

/// A share from 0 to 1 in hundredths.
fn percentage(share: f64) -> u32 {
    (0..100).rev().find(|whole| f64::from(*whole) <= share * 100.0).unwrap_or(0)
}

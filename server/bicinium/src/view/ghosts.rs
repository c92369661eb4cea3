//! What an open place of a sheet may become, to be looked at and listened to before anything is chosen.
//! It is searched for away from whoever serves the page, kept as long as the sheet stays as it is, and
//! given up as soon as it changes, something else is asked, or nobody waits any more.

use std::sync::atomic::AtomicBool;
use std::sync::{Arc, Mutex, PoisonError};

use super::edition::{Edition, Editions};
use super::places::Spot;
use crate::features::realizing::{Choices, choices};
use crate::searching::{For, search};
use crate::waiting::{OpenQuestions, Question};

/// What was found for the places that were asked about last.
#[derive(Debug, Default)]
pub(super) struct Ghosts {
    state: Mutex<State>,
}

#[derive(Debug, Default)]
struct State {
    open: OpenQuestions,
    known: Option<Known>,
}

#[derive(Clone, Debug)]
struct Known {
    edition: u64,
    spot: Spot,
    choices: Arc<Choices>,
}

impl Ghosts {
    /// What the open place at a spot of the newest edition may become, with that edition; `None` if
    /// nothing is open there, or if it is not to be known any more.
    pub(super) async fn at(
        &self,
        spot: Spot,
        mut editions: Editions,
    ) -> Option<(Arc<Edition>, Arc<Choices>)> {
        let edition = editions.borrow_and_update().clone();
        if let Some(choices) = self.known(edition.number, spot) {
            return Some((edition, choices));
        }
        let question = self.ask();
        let searching = tokio::select! {
            found = found(edition.clone(), spot, question.given_up()) => found,
            _ = editions.changed() => None,
        };
        let choices = searching.filter(|_| !question.is_overtaken()).map(Arc::new)?;
        self.keep(Known { edition: edition.number, spot, choices: choices.clone() });
        Some((edition, choices))
    }

    /// A question that overtakes all before it.
    fn ask(&self) -> Question {
        let mut state = self.state.lock().unwrap_or_else(PoisonError::into_inner);
        state.open.overtake();
        state.open.ask()
    }

    fn known(&self, edition: u64, spot: Spot) -> Option<Arc<Choices>> {
        let state = self.state.lock().unwrap_or_else(PoisonError::into_inner);
        let known = state.known.as_ref();
        let known = known.filter(|known| known.edition == edition && known.spot == spot)?;
        Some(known.choices.clone())
    }

    fn keep(&self, known: Known) {
        self.state.lock().unwrap_or_else(PoisonError::into_inner).known = Some(known);
    }
}

async fn found(edition: Arc<Edition>, spot: Spot, given_up: Arc<AtomicBool>) -> Option<Choices> {
    let work = move || {
        let sheet = edition.sheet.as_ref().ok()?;
        let offset = spot.in_sheet(sheet)?.start;
        choices(sheet, offset, &given_up)
    };
    search(For::Prompt, work).await?
}

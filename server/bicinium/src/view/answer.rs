//! What is answered to whom: requests that are let in get the sheet as data, word of what changes, or the
//! editor does what they ask. What may take a while is done away from the connections.

use std::sync::Arc;

use hyper::{Request, StatusCode};
use serde::Serialize;
use tokio::task::spawn_blocking;

use super::asked::Asked;
use super::content::{self, Wish};
use super::edition::Edition;
use super::files;
use super::ghosts::Ghosts;
use super::guard::Address;
use super::news::news;
use super::places::Spot;
use super::reply::{self, Answer};
use super::source::{Done, Source};

/// Why nothing is done on a page that belongs to no editor.
const ALONE: &str = "This page follows a file and does not write. Open the sheet in your editor and let it \
                     show the score, and what you choose is written there.";
/// Why something is not done that was chosen too late.
const OVERTAKEN: &str = "The sheet has changed meanwhile; nothing was written.";

/// The page of a sheet, as far as requests see it.
#[derive(Debug)]
pub(super) struct Page {
    /// Who is let in.
    pub address: Address,
    /// What is shown.
    pub source: Source,
    /// What was tried.
    pub ghosts: Ghosts,
}

/// What has become of something that the editor was asked to do.
#[derive(Serialize)]
struct Outcome {
    done: bool,
    /// Why not, as a sentence.
    why: Option<&'static str>,
}

/// The answer to a request.
pub(super) async fn answer<B>(request: &Request<B>, page: &Page) -> Answer {
    let asked = page.address.admit(request).and_then(|admitted| Asked::read(&admitted));
    let answer = match asked {
        Ok(asked) => page.answer(asked).await,
        Err(status) => return reply::refusal(status),
    };
    answer.unwrap_or_else(|| reply::refusal(StatusCode::NOT_FOUND))
}

impl Page {
    async fn answer(&self, asked: Asked) -> Option<Answer> {
        match asked {
            Asked::File(name) => files::named(&name),
            Asked::Sheet => {
                let contents = content::contents(&self.edition(), self.source.editor.is_some());
                Some(reply::json(&contents))
            }
            Asked::Exercise(wish) => self.exercise(wish).await,
            Asked::Tried(wish, spot, choice) => self.tried(wish, spot, choice).await,
            Asked::Openings(spot) => {
                let (edition, choices) = self.ghosts.at(spot, self.editions()).await?;
                Some(reply::json(&content::openings(edition.number, &choices)))
            }
            Asked::News => Some(reply::events(news(self.source.clone()))),
            Asked::Select(spot) => Some(outcome(self.select(spot).await?)),
            Asked::Write(spot, choice, edition) => {
                Some(outcome(self.write(spot, choice, edition).await))
            }
        }
    }

    fn editions(&self) -> super::Editions {
        self.source.editions.clone()
    }

    fn edition(&self) -> Arc<Edition> {
        self.source.editions.borrow().clone()
    }

    async fn exercise(&self, wish: Wish) -> Option<Answer> {
        let edition = self.edition();
        spawn_blocking(move || Some(reply::json(&content::shown(&edition, &wish)?))).await.ok()?
    }

    async fn tried(&self, wish: Wish, spot: Spot, choice: usize) -> Option<Answer> {
        let (edition, choices) = self.ghosts.at(spot, self.editions()).await?;
        let work = move || content::tried(&edition, spot, &choices, choice, &wish);
        spawn_blocking(move || Some(reply::json(&work()?))).await.ok()?
    }

    /// Lets the editor select a note; `None` if there is none.
    async fn select(&self, spot: Spot) -> Option<Done> {
        let edition = self.edition();
        let bytes = spot.in_sheet(edition.sheet.as_ref().ok()?)?;
        let Some(attached) = &self.source.editor else { return Some(Err(ALONE)) };
        Some(attached.editor.select(edition.number, bytes).await)
    }

    /// Lets the editor write a choice that was found in an edition.
    async fn write(&self, spot: Spot, choice: usize, edition: u64) -> Done {
        let Some(attached) = &self.source.editor else { return Err(ALONE) };
        let found = self.ghosts.at(spot, self.editions()).await;
        let (newest, choices) = found.ok_or(OVERTAKEN)?;
        let change = choices.change(choice).filter(|_| newest.number == edition);
        attached.editor.write(edition, vec![change.ok_or(OVERTAKEN)?]).await
    }
}

fn outcome(done: Done) -> Answer {
    reply::json(&Outcome { done: done.is_ok(), why: done.err() })
}

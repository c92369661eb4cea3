//! Word of whatever changes: the number of every edition, and the note at the cursor of the editor. Knows
//! no connections.

use futures::{Stream, stream};

use super::edition::Editions;
use super::places::Spot;
use super::source::{Cursor, Source};

/// Events from the present edition on, each as it is sent: the number of an edition, or a place of the
/// score as an event named `cursor`.
pub(super) fn news(source: Source) -> impl Stream<Item = String> + Send {
    let Source { mut editions, editor } = source;
    editions.mark_changed();
    let cursor = editor.map(|attached| attached.cursor);
    stream::unfold((editions, cursor), next)
}

async fn next((mut editions, mut cursor): Lines) -> Option<(String, Lines)> {
    loop {
        let line = tokio::select! {
            biased;
            more = editions.changed() => {
                more.ok()?;
                Some(format!("data: {}\n\n", editions.borrow_and_update().number))
            }
            offset = moved(&mut cursor) => pointed(&editions, offset),
        };
        if let Some(line) = line {
            return Some((line, (editions, cursor)));
        }
    }
}

type Lines = (Editions, Option<Cursor>);

/// Where the cursor goes next; never, if there is none.
async fn moved(cursor: &mut Option<Cursor>) -> Option<usize> {
    let Some(line) = cursor else { return std::future::pending().await };
    if line.changed().await.is_err() {
        *cursor = None;
        return None;
    }
    *line.borrow_and_update()
}

fn pointed(editions: &Editions, offset: Option<usize>) -> Option<String> {
    let edition = editions.borrow().clone();
    let spot = Spot::pointed_at(edition.sheet.as_ref().ok()?, offset?)?;
    let spot = serde_json::to_string(&spot).ok()?;
    Some(format!("event: cursor\ndata: {spot}\n\n"))
}

//! Searches, those of a kind one after the other on a thread of their own: what one has remembered and given back serves the
//! next, so that a server which runs all day stays small. On threads that come and go each would keep its own.
//!
//! It must not know what is searched for.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::LazyLock;
use std::sync::mpsc::{Sender, channel};
use std::thread;

use tokio::runtime::Handle;
use tokio::sync::oneshot;

type Job = Box<dyn FnOnce() + Send>;

type Lane = LazyLock<Option<Sender<Job>>>;

static PROMPT: Lane = LazyLock::new(|| start("search-prompt"));
static BESIDE: Lane = LazyLock::new(|| start("search-beside"));
static AHEAD: Lane = LazyLock::new(|| start("search-ahead"));

/// What a search is for.
#[derive(Clone, Copy, Debug)]
pub(crate) enum For {
    /// Somebody waits for it at the keyboard.
    Prompt,
    /// It is shown beside the text, of one exercise after the other.
    Beside,
    /// It looks ahead while nobody types, or does at leisure what was ordered.
    Ahead,
}

/// Searches when it is its turn; nothing if the search came to grief, of which the alarm tells.
pub(crate) async fn search<T: Send + 'static>(
    purpose: For,
    work: impl FnOnce() -> T + Send + 'static,
) -> Option<T> {
    let (told, found) = oneshot::channel();
    // What the work tells on its way is sent by tasks of whoever waits for it.
    let tasks = Handle::current();
    let job = move || {
        let _tasks = tasks.enter();
        let _ = catch_unwind(AssertUnwindSafe(|| told.send(work())));
    };
    let lane = match purpose {
        For::Prompt => &PROMPT,
        For::Beside => &BESIDE,
        For::Ahead => &AHEAD,
    };
    lane.as_ref()?.send(Box::new(job)).ok()?;
    found.await.ok()
}

/// A thread that does what it is sent; nothing if the system has none to give.
fn start(name: &str) -> Option<Sender<Job>> {
    let (sender, jobs) = channel::<Job>();
    let work = move || jobs.into_iter().for_each(|job| job());
    thread::Builder::new().name(name.to_owned()).spawn(work).ok()?;
    Some(sender)
}

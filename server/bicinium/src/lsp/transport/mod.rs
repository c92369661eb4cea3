//! Carries JSON-RPC messages between a pair of byte streams and a service.
//!
//! It keeps the promises that editors rely on: messages are taken up in the order in which they
//! arrive, a broken one costs only itself, reading never waits for writing, and the process ends
//! when the protocol says so. It must not know what a request is about.

mod answer;
mod framing;
mod intake;
mod lifecycle;
mod message;
mod repair;
#[cfg(test)]
mod tests;
mod writer;
mod written;

use std::io;
use std::time::Duration;

use futures::{Stream, StreamExt};
use tokio::io::AsyncRead;
use tokio::task::JoinHandle;
use tower::Service;
use tower_lsp::ClientSocket;
use tower_lsp::jsonrpc::{Request, Response};

use self::intake::Intake;
use self::lifecycle::Lifecycle;
pub(super) use self::writer::{Outbox, start};
pub(super) use self::written::{hand_over, written_out};

/// How long answers that are still on their way may take once the conversation is over.
const GRACE: Duration = Duration::from_secs(2);

/// What writes to the client: where messages are put, and the task that writes them.
pub(in crate::lsp) type Writing = (Outbox, JoinHandle<io::Result<()>>);

/// Runs one conversation from the first message to its end and returns the exit code of the
/// process: 0 if the client asked for a shutdown first, 1 otherwise.
///
/// The conversation ends on `exit`, at the end of `input`, or when the output can no longer be
/// written.
pub(in crate::lsp) async fn serve<S, I>(
    service: S,
    socket: ClientSocket,
    input: I,
    (outbox, mut writing): Writing,
) -> i32
where
    S: Service<Request, Response = Option<Response>>,
    S::Future: Send + 'static,
    I: AsyncRead + Unpin,
{
    let (requests, replies) = socket.split();
    let forwarding = tokio::spawn(forward(requests, outbox.clone()));
    let lifecycle = Lifecycle::default();
    let mut intake = Intake::new(service, replies, outbox.clone(), lifecycle.clone());

    tokio::select! {
        () = intake.run(input) => {
            outbox.close();
            let _ = tokio::time::timeout(GRACE, &mut writing).await;
        }
        _ = &mut writing => {}
    }
    forwarding.abort();
    writing.abort();
    lifecycle.exit_code()
}

async fn forward(mut requests: impl Stream<Item = Request> + Unpin, outbox: Outbox) {
    while let Some(request) = requests.next().await {
        outbox.send(&request);
    }
}

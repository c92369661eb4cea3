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

use std::time::Duration;

use futures::{Stream, StreamExt};
use tokio::io::{AsyncRead, AsyncWrite};
use tower::Service;
use tower_lsp::ClientSocket;
use tower_lsp::jsonrpc::{Request, Response};

use self::intake::Intake;
use self::lifecycle::Lifecycle;
use self::writer::Outbox;

/// How long answers that are still on their way may take once the conversation is over.
const GRACE: Duration = Duration::from_secs(2);

/// Runs one conversation from the first message to its end and returns the exit code of the
/// process: 0 if the client asked for a shutdown first, 1 otherwise.
///
/// The conversation ends on `exit`, at the end of `input`, or when `output` can no longer be
/// written.
pub async fn serve<S, I, O>(service: S, socket: ClientSocket, input: I, output: O) -> i32
where
    S: Service<Request, Response = Option<Response>>,
    S::Future: Send + 'static,
    I: AsyncRead + Unpin,
    O: AsyncWrite + Unpin + Send + 'static,
{
    let (outbox, mut writing) = writer::start(output);
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

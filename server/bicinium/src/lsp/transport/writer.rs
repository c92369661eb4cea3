//! The only task that writes: messages queue up without limit, so that a client which does not
//! read never stops the server from reading.
//!
//! It must not know what it writes.

use std::io;

use serde::Serialize;
use tokio::io::{AsyncWrite, AsyncWriteExt};
use tokio::sync::mpsc::{UnboundedReceiver, UnboundedSender, unbounded_channel};
use tokio::task::JoinHandle;

use crate::recording::{Recorder, Sender};

const BATCH: usize = 64;

/// Where messages to the client are put. Copies write to the same stream.
#[derive(Clone)]
pub(in crate::lsp) struct Outbox {
    queue: UnboundedSender<Post>,
    recorder: Recorder,
}

enum Post {
    Message(Vec<u8>),
    Close,
}

/// Starts the task. It ends after [`Outbox::close`] or on the first error. What is said in either
/// direction goes to the recorder.
pub(in crate::lsp) fn start<O>(
    output: O,
    recorder: Recorder,
) -> (Outbox, JoinHandle<io::Result<()>>)
where
    O: AsyncWrite + Unpin + Send + 'static,
{
    let (queue, posts) = unbounded_channel();
    (Outbox { queue, recorder }, tokio::spawn(write(posts, output)))
}

impl Outbox {
    /// Queues a message. Once the stream is closed it is dropped: nobody is left to read it.
    pub(super) fn send(&self, message: &impl Serialize) {
        if let Ok(body) = serde_json::to_vec(message) {
            self.send_body(body);
        }
    }

    /// Queues a message that is written out already.
    pub(in crate::lsp) fn send_body(&self, body: Vec<u8>) {
        self.recorder.take_down(Sender::Server, &body);
        let _ = self.queue.send(Post::Message(body));
    }

    /// Takes note of what the client has said.
    pub(super) fn heard(&self, body: &[u8]) {
        self.recorder.take_down(Sender::Client, body);
    }

    /// Ends the task after everything that is queued so far.
    pub(super) fn close(&self) {
        let _ = self.queue.send(Post::Close);
    }
}

async fn write<O>(mut posts: UnboundedReceiver<Post>, mut output: O) -> io::Result<()>
where
    O: AsyncWrite + Unpin,
{
    let mut batch = Vec::with_capacity(BATCH);
    while posts.recv_many(&mut batch, BATCH).await > 0 {
        for post in batch.drain(..) {
            let Post::Message(body) = post else { return output.flush().await };
            output.write_all(header(&body).as_bytes()).await?;
            output.write_all(&body).await?;
        }
        output.flush().await?;
    }
    Ok(())
}

fn header(body: &[u8]) -> String {
    format!("Content-Length: {}\r\n\r\n", body.len())
}

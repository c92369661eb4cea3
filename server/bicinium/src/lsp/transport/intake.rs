//! Takes up the client's messages in the order in which they arrive.
//!
//! Every handler is polled once before the next message is looked at, so what it does before its
//! first wait happens in order; the rest of it runs as a task of its own, and a panic in it costs
//! that one answer. It must not know what a request is about.

use std::future::poll_fn;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::task::Poll;

use futures::{FutureExt, Sink, SinkExt};
use tokio::io::AsyncRead;
use tokio::task::JoinSet;
use tower::Service;
use tower_lsp::jsonrpc::{Request, Response};

use super::GRACE;
use super::answer::Answer;
use super::framing::{Frame, Frames};
use super::lifecycle::{EXIT, Lifecycle};
use super::message::{Message, parse_error};
use super::writer::Outbox;
use super::written::with_tray;

/// Reads messages, hands them to the service and queues the answers.
pub(super) struct Intake<S, R> {
    service: S,
    replies: R,
    outbox: Outbox,
    lifecycle: Lifecycle,
    running: JoinSet<()>,
}

impl<S, R> Intake<S, R>
where
    S: Service<Request, Response = Option<Response>>,
    S::Future: Send + 'static,
    R: Sink<Response> + Unpin,
{
    pub(super) fn new(service: S, replies: R, outbox: Outbox, lifecycle: Lifecycle) -> Self {
        Intake { service, replies, outbox, lifecycle, running: JoinSet::new() }
    }

    /// Runs until `exit` or the end of the input. At the end of the input, handlers that are
    /// still at work get a moment to answer; `exit` cuts them off.
    pub(super) async fn run<I: AsyncRead + Unpin>(&mut self, input: I) {
        let mut frames = Frames::new(input);
        while let Some(frame) = frames.next().await {
            if let Frame::Body(body) = &frame {
                self.outbox.heard(body);
            }
            match read(frame, &mut frames) {
                Message::Request(request) if request.method() == EXIT => {
                    self.take_up(request).await;
                    return self.running.abort_all();
                }
                Message::Request(request) => self.take_up(request).await,
                Message::Reply(reply) => self.deliver(reply),
                Message::Invalid(answer) => self.outbox.send(&answer),
                Message::Unreadable => self.outbox.send(&parse_error()),
            }
            while self.running.try_join_next().is_some() {}
        }
        self.finish().await;
    }

    async fn take_up(&mut self, request: Request) {
        if poll_fn(|context| self.service.poll_ready(context)).await.is_err() {
            return;
        }
        let request = Lifecycle::tolerate(request);
        let answer = Answer::to(&request, self.outbox.clone(), self.lifecycle.clone());
        let handling = AssertUnwindSafe(self.service.call(request)).catch_unwind();
        let mut handling = Box::pin(with_tray(handling));
        match futures::poll!(&mut handling) {
            Poll::Ready((outcome, written)) => answer.give(outcome, written),
            Poll::Pending => {
                self.running.spawn(async move {
                    let (outcome, written) = handling.await;
                    answer.give(outcome, written);
                });
            }
        }
    }

    /// Hands on a reply. The library panics when nobody waits for it any more; that is no
    /// reason to stop reading.
    fn deliver(&mut self, reply: Response) {
        let _ = catch_unwind(AssertUnwindSafe(|| self.replies.start_send_unpin(reply)));
    }

    async fn finish(&mut self) {
        let rest = async { while self.running.join_next().await.is_some() {} };
        let _ = tokio::time::timeout(GRACE, rest).await;
    }
}

fn read<I: AsyncRead + Unpin>(frame: Frame, frames: &mut Frames<I>) -> Message {
    let Frame::Body(body) = frame else { return Message::Unreadable };
    let message = Message::read(&body);
    if matches!(message, Message::Unreadable) {
        frames.reject(&body);
    }
    message
}

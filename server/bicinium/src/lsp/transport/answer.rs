//! Turns what became of a handler into the one response that every request is owed.
//!
//! It must not know what was asked.

use std::any::Any;

use tower_lsp::jsonrpc::{Error, Id, Request, Response};

use super::lifecycle::Lifecycle;
use super::writer::Outbox;
use super::written::written_out;

/// What became of a handler: its own result, or the panic that ended it.
pub(super) type Outcome<E> = Result<Result<Option<Response>, E>, Box<dyn Any + Send>>;

/// The answer that is still owed; nothing is owed for a notification.
pub(super) struct Answer {
    id: Option<Id>,
    method: String,
    outbox: Outbox,
    lifecycle: Lifecycle,
}

impl Answer {
    pub(super) fn to(request: &Request, outbox: Outbox, lifecycle: Lifecycle) -> Self {
        let id = request.id().cloned();
        Answer { id, method: request.method().to_owned(), outbox, lifecycle }
    }

    /// Sends the response, with a result that is written out already if there is one. A handler that
    /// panicked or found the service closed is answered by an internal error, one that says nothing by
    /// "method not found": the library swallows that answer for methods that begin with `$/`.
    pub(super) fn give<E>(self, outcome: Outcome<E>, written: Option<Vec<u8>>) {
        let Some(id) = self.id else { return };
        let response = match outcome {
            Ok(Ok(Some(response))) => response,
            Ok(Ok(None)) => Response::from_error(id, Error::method_not_found()),
            Ok(Err(_)) | Err(_) => Response::from_error(id, Error::internal_error()),
        };
        self.lifecycle.answered(&self.method, &response);
        match written.filter(|_| response.is_ok()) {
            Some(result) => self.outbox.send_body(body(response.id(), &result)),
            None => self.outbox.send(&response),
        }
    }
}

/// A response whose result is written out already.
fn body(id: &Id, result: &[u8]) -> Vec<u8> {
    let id = written_out(id);
    [b"{\"jsonrpc\":\"2.0\",\"result\":", result, b",\"id\":", &id, b"}"].concat()
}

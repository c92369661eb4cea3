//! Remembers how far the life of the server has come, as the protocol defines it.
//!
//! It must not know any request but the two that end a conversation.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use tower_lsp::jsonrpc::{Request, RequestBuilder, Response};

/// The notification that ends the process.
pub(super) const EXIT: &str = "exit";
/// The request that has to come before it.
const SHUTDOWN: &str = "shutdown";

/// Shared by all who answer requests.
#[derive(Clone, Default)]
pub(super) struct Lifecycle {
    shut_down: Arc<AtomicBool>,
}

impl Lifecycle {
    /// The request without parameters that it should not have: some editors send an empty object
    /// with their shutdown, and that is no reason to refuse it.
    pub(super) fn tolerate(request: Request) -> Request {
        if request.method() != SHUTDOWN {
            return request;
        }
        let (method, id, _) = request.into_parts();
        let bare = Request::build(method);
        id.into_iter().fold(bare, RequestBuilder::id).finish()
    }

    /// Notes the answer to a request; a shutdown counts once it has been granted.
    pub(super) fn answered(&self, method: &str, response: &Response) {
        if method == SHUTDOWN && response.is_ok() {
            self.shut_down.store(true, Ordering::SeqCst);
        }
    }

    /// The exit code of the process if it ended now.
    pub(super) fn exit_code(&self) -> i32 {
        i32::from(!self.shut_down.load(Ordering::SeqCst))
    }
}

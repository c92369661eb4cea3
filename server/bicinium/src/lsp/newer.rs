//! What the protocol has gained since the types that the server is built on: a text behind an
//! address of the server's own (LSP 3.18).
//!
//! It must not know what the texts are about.

use std::task::{Context, Poll};

use futures::FutureExt;
use futures::future::BoxFuture;
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use tower::Service;
use tower_lsp::jsonrpc::{Request, Response};
use tower_lsp::lsp_types::Url;

use super::rule_pages::SCHEME;

/// The request for a text.
pub(super) const TEXT_DOCUMENT_CONTENT: &str = "workspace/textDocumentContent";

/// What a client asks for.
#[derive(Debug, Deserialize)]
pub(super) struct TextDocumentContentParams {
    /// The address.
    pub(super) uri: Url,
}

/// The answer.
#[derive(Debug, Serialize)]
pub(super) struct TextDocumentContentResult {
    /// The text behind the address.
    pub(super) text: String,
}

/// A service that also offers what its types cannot say.
pub(super) struct Newer<S>(pub(super) S);

impl<S> Service<Request> for Newer<S>
where
    S: Service<Request, Response = Option<Response>>,
    S::Future: Send + 'static,
{
    type Response = Option<Response>;
    type Error = S::Error;
    type Future = BoxFuture<'static, Result<Self::Response, Self::Error>>;

    fn poll_ready(&mut self, context: &mut Context<'_>) -> Poll<Result<(), Self::Error>> {
        self.0.poll_ready(context)
    }

    fn call(&mut self, request: Request) -> Self::Future {
        let is_handshake = request.method() == "initialize";
        let answer = self.0.call(request);
        if is_handshake {
            answer.map(|answer| answer.map(|answer| answer.map(with_offer))).boxed()
        } else {
            answer.boxed()
        }
    }
}

/// The reply to `initialize` with the texts offered.
fn with_offer(reply: Response) -> Response {
    let (id, result) = reply.into_parts();
    let result = result.map(|mut result| {
        if let Some(Value::Object(capabilities)) = result.get_mut("capabilities") {
            let workspace = capabilities.entry("workspace").or_insert_with(|| json!({}));
            workspace["textDocumentContent"] = json!({"schemes": [SCHEME]});
        }
        result
    });
    Response::from_parts(id, result)
}

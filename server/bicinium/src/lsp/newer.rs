//! What the protocol has gained since the types that the server is built on, or what they read under
//! another name: a text behind an address of the server's own (LSP 3.18), whether a client asks
//! for diagnostics again when it is told to, and where its cursor is.
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

/// The name of the notice that what is done under a token is not wanted any more.
pub(super) const PROGRESS_CANCEL: &str = "window/workDoneProgress/cancel";

/// The name of the notice, no part of the protocol, that the cursor has moved; it says where it is.
pub(super) const CURSOR: &str = "bicinium/cursor";

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
        if request.method() == "initialize" {
            let answer = self.0.call(with_names(request));
            answer.map(|answer| answer.map(|answer| answer.map(with_offer))).boxed()
        } else {
            self.0.call(request).boxed()
        }
    }
}

/// The request with what a client can do under the name that the types know.
fn with_names(request: Request) -> Request {
    let (method, id, params) = request.into_parts();
    let params = params.map(|mut params| {
        if let Some(workspace) = params.pointer_mut("/capabilities/workspace")
            && let Some(diagnostics) = workspace.get("diagnostics").cloned()
        {
            workspace["diagnostic"] = diagnostics;
        }
        params
    });
    let request = Request::build(method);
    let request = params.into_iter().fold(request, tower_lsp::jsonrpc::RequestBuilder::params);
    id.into_iter().fold(request, tower_lsp::jsonrpc::RequestBuilder::id).finish()
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

//! Answers over HTTP: with their kind, and with what keeps other pages away. Knows no contents.

use std::convert::Infallible;

use bytes::Bytes;
use futures::Stream;
use http_body_util::combinators::UnsyncBoxBody;
use http_body_util::{BodyExt, Full, StreamBody};
use hyper::body::Frame;
use hyper::header::{self, HeaderName, HeaderValue};
use hyper::{Response, StatusCode};
use serde::Serialize;

/// An answer, all of it or piece by piece.
pub(super) type Answer = Response<UnsyncBoxBody<Bytes, Infallible>>;

/// Nothing is taken from elsewhere, and no other page may hold this one.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src data:; \
                      base-uri 'none'; form-action 'none'; frame-ancestors 'none'";
/// The same for a page in the frame of an editor on this machine.
const FRAMED: &str = "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src data:; \
                      base-uri 'none'; form-action 'none'; \
                      frame-ancestors vscode-webview: vscode-file: http://127.0.0.1:* http://localhost:*";
/// Nothing is kept, nor put together on its way: news are to arrive at once.
const HEADERS: [(HeaderName, &str); 5] = [
    (header::CONTENT_SECURITY_POLICY, POLICY),
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::REFERRER_POLICY, "no-referrer"),
    (header::CACHE_CONTROL, "no-store, no-transform"),
    (header::X_FRAME_OPTIONS, "DENY"),
];

/// A file of the page.
pub(super) fn file(kind: &'static str, text: &'static str) -> Answer {
    whole(StatusCode::OK, kind, Bytes::from_static(text.as_bytes()))
}

/// The same for the frame of an editor on this machine.
pub(super) fn framed(mut answer: Answer) -> Answer {
    let headers = answer.headers_mut();
    headers.insert(header::CONTENT_SECURITY_POLICY, HeaderValue::from_static(FRAMED));
    headers.remove(header::X_FRAME_OPTIONS);
    answer
}

/// Data.
pub(super) fn json(value: &impl Serialize) -> Answer {
    match serde_json::to_vec(value) {
        Ok(text) => whole(StatusCode::OK, "application/json", text.into()),
        Err(_) => refusal(StatusCode::INTERNAL_SERVER_ERROR),
    }
}

/// No answer.
pub(super) fn refusal(status: StatusCode) -> Answer {
    let text = status.canonical_reason().unwrap_or("Refused");
    whole(status, "text/plain", Bytes::from_static(text.as_bytes()))
}

/// Server-sent events (HTML standard, 9.2), one after the other.
pub(super) fn events(lines: impl Stream<Item = String> + Send + 'static) -> Answer {
    use futures::StreamExt;
    let frames = lines.map(|line| Ok(Frame::data(Bytes::from(line))));
    let body = StreamBody::new(frames.boxed()).boxed_unsync();
    finish(StatusCode::OK, "text/event-stream", body)
}

fn whole(status: StatusCode, kind: &'static str, bytes: Bytes) -> Answer {
    finish(status, kind, Full::new(bytes).boxed_unsync())
}

fn finish(
    status: StatusCode,
    kind: &'static str,
    body: UnsyncBoxBody<Bytes, Infallible>,
) -> Answer {
    let mut answer = Response::new(body);
    *answer.status_mut() = status;
    let headers = answer.headers_mut();
    headers.insert(header::CONTENT_TYPE, HeaderValue::from_static(kind));
    for (name, value) in HEADERS {
        headers.insert(name, HeaderValue::from_static(value));
    }
    answer
}

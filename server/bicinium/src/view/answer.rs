//! What the page is answered: its files, the sheet as data, and word of every new edition. Knows
//! neither connections nor music.

use std::convert::Infallible;
use std::sync::Arc;

use bicinium_export::Extra;
use bytes::Bytes;
use futures::{StreamExt, stream};
use http_body_util::combinators::UnsyncBoxBody;
use http_body_util::{BodyExt, Full, StreamBody};
use hyper::body::Frame;
use hyper::header::{self, HeaderValue};
use hyper::{Request, Response, StatusCode};
use serde::Serialize;

use super::content::{self, Wish};
use super::guard::Address;
use super::watch::{Edition, Editions};

/// An answer, all of it or piece by piece.
pub(super) type Answer = Response<UnsyncBoxBody<Bytes, Infallible>>;

/// Nothing is taken from elsewhere, nothing is kept, and no other page may hold this one.
const HEADERS: [(header::HeaderName, &str); 5] = [
    (
        header::CONTENT_SECURITY_POLICY,
        "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src data:; \
         base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
    ),
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::REFERRER_POLICY, "no-referrer"),
    (header::CACHE_CONTROL, "no-store"),
    (header::X_FRAME_OPTIONS, "DENY"),
];

/// The answer to a request.
pub(super) fn answer<B>(request: &Request<B>, address: &Address, editions: &Editions) -> Answer {
    let (path, query) = match address.admit(request) {
        Ok(asked) => asked,
        Err(status) => return refusal(status),
    };
    let edition = || -> Arc<Edition> { editions.borrow().clone() };
    match path {
        "" => file("text/html; charset=utf-8", include_str!("page/index.html")),
        "style.css" => file("text/css; charset=utf-8", include_str!("page/style.css")),
        "main.js" => script(include_str!("page/main.js")),
        "score.js" => script(include_str!("page/score.js")),
        "player.js" => script(include_str!("page/player.js")),
        "sound.js" => script(include_str!("page/sound.js")),
        "sheet.json" => json(&content::contents(&edition())),
        "exercise.json" => match wish(query).and_then(|wish| content::shown(&edition(), &wish)) {
            Some(shown) => json(&shown),
            None => refusal(StatusCode::NOT_FOUND),
        },
        "events" => news(editions.clone()),
        _ => refusal(StatusCode::NOT_FOUND),
    }
}

/// What is asked about an exercise: `number=2&width=180&show=figures,findings`.
fn wish(query: &str) -> Option<Wish> {
    let value = |name: &str| {
        let mut pairs = query.split('&').filter_map(|pair| pair.split_once('='));
        pairs.find(|(key, _)| *key == name).map(|(_, value)| value)
    };
    let extra = |name: &str| match name {
        "figures" => Some(Extra::Figures),
        "harmonies" => Some(Extra::Harmonies),
        "findings" => Some(Extra::Findings),
        _ => None,
    };
    Some(Wish {
        number: value("number")?.parse().ok()?,
        width: value("width")?.parse().ok()?,
        extras: value("show").unwrap_or_default().split(',').filter_map(extra).collect(),
    })
}

fn script(text: &'static str) -> Answer {
    file("text/javascript; charset=utf-8", text)
}

fn file(kind: &'static str, text: &'static str) -> Answer {
    whole(StatusCode::OK, kind, Bytes::from_static(text.as_bytes()))
}

fn json(value: &impl Serialize) -> Answer {
    match serde_json::to_vec(value) {
        Ok(text) => whole(StatusCode::OK, "application/json", text.into()),
        Err(_) => refusal(StatusCode::INTERNAL_SERVER_ERROR),
    }
}

fn refusal(status: StatusCode) -> Answer {
    let text = status.canonical_reason().unwrap_or("Refused");
    whole(status, "text/plain", Bytes::from_static(text.as_bytes()))
}

/// The number of every edition from the present one on, as server-sent events (HTML standard, 9.2).
fn news(editions: Editions) -> Answer {
    let next = |(mut editions, is_first): (Editions, bool)| async move {
        if !is_first {
            editions.changed().await.ok()?;
        }
        let number = editions.borrow_and_update().number;
        let line = Bytes::from(format!("data: {number}\n\n"));
        Some((Ok(Frame::data(line)), (editions, false)))
    };
    let events = stream::unfold((editions, true), next).boxed();
    finish(StatusCode::OK, "text/event-stream", StreamBody::new(events).boxed_unsync())
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

//! Tells requests, replies and nonsense apart.
//!
//! It must not know any method by name.

use serde_json::Value;
use tower_lsp::jsonrpc::{Error, Id, Request, Response};

use super::repair::repaired;

/// One message from the client.
#[derive(Debug)]
pub(super) enum Message {
    /// A request or a notification.
    Request(Request),
    /// The reply to something that the server had asked.
    Reply(Response),
    /// Readable, but no message; holds the error that answers it.
    Invalid(Response),
    /// Not readable at all.
    Unreadable,
}

impl Message {
    /// Reads a body. Parameters that are `null` are the same as none.
    pub(super) fn read(body: &[u8]) -> Message {
        let value = serde_json::from_slice(body).or_else(|_| serde_json::from_str(&repaired(body)));
        value.map_or(Message::Unreadable, Message::from_value)
    }

    fn from_value(mut value: Value) -> Message {
        let id = id_of(&value);
        if value.get("method").is_some() {
            drop_null_params(&mut value);
            serde_json::from_value(value).map_or_else(|_| invalid(id), Message::Request)
        } else if value.get("result").is_some() || value.get("error").is_some() {
            serde_json::from_value(value).map_or_else(|_| invalid(Id::Null), Message::Reply)
        } else {
            invalid(id)
        }
    }
}

/// The answer to bytes that are no JSON.
pub(super) fn parse_error() -> Response {
    Response::from_error(Id::Null, Error::parse_error())
}

fn invalid(id: Id) -> Message {
    Message::Invalid(Response::from_error(id, Error::invalid_request()))
}

fn id_of(value: &Value) -> Id {
    value.get("id").and_then(|id| serde_json::from_value(id.clone()).ok()).unwrap_or_default()
}

fn drop_null_params(value: &mut Value) {
    if let Some(fields) = value.as_object_mut()
        && fields.get("params").is_some_and(Value::is_null)
    {
        fields.remove("params");
    }
}

#[cfg(test)]
mod tests {
    use super::Message;

    fn request(text: &str) -> Option<String> {
        match Message::read(text.as_bytes()) {
            Message::Request(request) => Some(request.to_string()),
            _ => None,
        }
    }

    #[test]
    fn parameters_that_are_null_are_the_same_as_none() {
        let bare = request(r#"{"jsonrpc":"2.0","id":1,"method":"any"}"#);
        assert!(bare.is_some());
        assert_eq!(request(r#"{"jsonrpc":"2.0","id":1,"method":"any","params":null}"#), bare);
        assert_ne!(request(r#"{"jsonrpc":"2.0","id":1,"method":"any","params":{}}"#), bare);
    }
}

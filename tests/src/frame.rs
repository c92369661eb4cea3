//! Messages on a byte stream, exactly as the protocol frames them.
//!
//! It is strict where the server has to be tolerant: what the server writes has to be by the book.

use std::io::{self, BufRead, Read, Write};

use serde_json::Value;

/// Writes one message.
pub(crate) fn write(mut output: impl Write, message: &Value) -> io::Result<()> {
    let body = message.to_string();
    write!(output, "Content-Length: {}\r\n\r\n{body}", body.len())?;
    output.flush()
}

/// Reads one message; `None` at the end of the stream.
///
/// # Panics
/// When the stream holds anything but messages.
pub(crate) fn read(input: &mut impl BufRead) -> Option<Value> {
    let mut header = String::new();
    input.read_line(&mut header).expect("headers are text");
    if header.is_empty() {
        return None;
    }
    let length = header.strip_prefix("Content-Length: ").and_then(|it| it.strip_suffix("\r\n"));
    let length: u64 = length.and_then(|it| it.parse().ok()).expect("a header tells the length");
    let mut rest = String::new();
    input.read_line(&mut rest).expect("headers are text");
    assert_eq!(rest, "\r\n", "an empty line ends the header");
    let mut body = Vec::new();
    input.take(length).read_to_end(&mut body).expect("a body follows its header");
    Some(serde_json::from_slice(&body).expect("a body is JSON"))
}

//! The page of the score, asked for as a browser would. It must not know what is on it.

use std::io::{Read, Write};
use std::net::TcpStream;

/// What of the page is asked for.
const PARTS: [&str; 3] =
    ["", "sheet.json", "exercise.json?number=1&width=180&show=figures,harmonies,findings"];

/// Has the page drawn, by its address; whether all of it came. A sheet may have no exercise at the moment.
pub(crate) fn look_at(address: &str) -> bool {
    let has_come = |answer: String| {
        ["200", "404"].iter().any(|status| answer.starts_with(&format!("HTTP/1.1 {status}")))
    };
    PARTS.iter().all(|part| get(address, part).is_some_and(has_come))
}

fn get(address: &str, part: &str) -> Option<String> {
    let (host, path) = address.strip_prefix("http://")?.split_once('/')?;
    let mut stream = TcpStream::connect(host).ok()?;
    let head = format!("GET /{path}{part} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n");
    stream.write_all(head.as_bytes()).ok()?;
    let mut answer = Vec::new();
    stream.read_to_end(&mut answer).ok()?;
    Some(String::from_utf8_lossy(&answer).into_owned())
}

//! Cuts a stream of bytes into message bodies by their `Content-Length` headers.
//!
//! Headers are read tolerantly: any case, any order, any further header, bare line feeds. After
//! bytes that make no sense it finds the next header and goes on from there. It must not know
//! what a body holds.

#[cfg(test)]
mod tests;

use std::io;

use bytes::{Buf, BytesMut};
use tokio::io::{AsyncRead, AsyncReadExt};

/// The longest body that is waited for, in bytes.
const LONGEST_BODY: usize = 256 << 20;
/// The longest line that is kept while a header is looked for, in bytes.
const LONGEST_LINE: usize = 64 << 10;
/// How much of an overlong line is kept: enough for a length header that is still arriving.
const TAIL: usize = 64;
const READ_AHEAD: usize = 64 << 10;
const LENGTH_HEADER: &[u8] = b"content-length:";

/// What was found next in the stream.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Frame {
    /// One whole message body.
    Body(BytesMut),
    /// Bytes in place of a message: no length was given, or one that cannot be meant.
    Stray,
}

/// Message bodies read from `input`, one after the other.
pub(super) struct Frames<I> {
    input: I,
    framing: Framing,
}

impl<I: AsyncRead + Unpin> Frames<I> {
    pub(super) fn new(input: I) -> Self {
        Frames { input, framing: Framing::default() }
    }

    /// The next frame, or `None` at the end of the input.
    pub(super) async fn next(&mut self) -> Option<Frame> {
        loop {
            if let Some(frame) = self.framing.next() {
                return Some(frame);
            }
            if self.read_more().await.ok()? == 0 {
                return None;
            }
        }
    }

    /// Takes back a body that is no message: a header inside it starts the next frame.
    pub(super) fn reject(&mut self, body: &[u8]) {
        self.framing.reject(body);
    }

    async fn read_more(&mut self) -> io::Result<usize> {
        self.framing.buffer.reserve(READ_AHEAD);
        self.input.read_buf(&mut self.framing.buffer).await
    }
}

#[derive(Default)]
struct Framing {
    buffer: BytesMut,
    expected: Expected,
}

enum Expected {
    /// Header lines; `length` is what the last length header said, `any` tells whether any
    /// line was seen since the last frame.
    Header { length: Option<Length>, any: bool },
    /// That many bytes of a body.
    Body(usize),
}

#[derive(Clone, Copy)]
enum Length {
    Bytes(usize),
    Absurd,
}

impl Default for Expected {
    fn default() -> Self {
        Expected::Header { length: None, any: false }
    }
}

impl Framing {
    fn next(&mut self) -> Option<Frame> {
        loop {
            match self.expected {
                Expected::Body(length) => return self.take_body(length),
                Expected::Header { length, any } => {
                    let line = self.take_line()?;
                    if !line.trim_ascii().is_empty() {
                        let length = length_in(&line).or(length);
                        self.expected = Expected::Header { length, any: true };
                    } else if let Some(Length::Bytes(length)) = length {
                        self.expected = Expected::Body(length);
                    } else if any {
                        self.expected = Expected::default();
                        return Some(Frame::Stray);
                    }
                }
            }
        }
    }

    fn take_body(&mut self, length: usize) -> Option<Frame> {
        if self.buffer.len() < length {
            return None;
        }
        self.expected = Expected::default();
        Some(Frame::Body(self.buffer.split_to(length)))
    }

    fn take_line(&mut self) -> Option<BytesMut> {
        let Some(end) = self.buffer.iter().position(|&byte| byte == b'\n') else {
            self.forget_overlong_line();
            return None;
        };
        Some(self.buffer.split_to(end + 1))
    }

    fn forget_overlong_line(&mut self) {
        if self.buffer.len() > LONGEST_LINE {
            self.buffer.advance(self.buffer.len() - TAIL);
        }
    }

    fn reject(&mut self, body: &[u8]) {
        if let Some(at) = headers_in(body).next() {
            let mut buffer = BytesMut::from(&body[at..]);
            buffer.extend_from_slice(&self.buffer);
            self.buffer = buffer;
        }
    }
}

/// The length that a line announces; the last one counts, so that what is left of a garbled
/// message in front of it does no harm.
fn length_in(line: &[u8]) -> Option<Length> {
    let at = headers_in(line).last()?;
    let value = str::from_utf8(&line[at + LENGTH_HEADER.len()..]).ok();
    match value.and_then(|value| value.trim().parse().ok()) {
        Some(length) if length <= LONGEST_BODY => Some(Length::Bytes(length)),
        _ => Some(Length::Absurd),
    }
}

fn headers_in(bytes: &[u8]) -> impl Iterator<Item = usize> {
    let windows = bytes.windows(LENGTH_HEADER.len()).enumerate();
    windows.filter(|(_, window)| window.eq_ignore_ascii_case(LENGTH_HEADER)).map(|(at, _)| at)
}

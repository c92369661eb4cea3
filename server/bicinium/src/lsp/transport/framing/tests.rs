//! Bytes as clients send them, well and badly.

use proptest::prelude::*;

use super::{Frame, Framing};

fn frames(input: &[u8]) -> Vec<Frame> {
    in_chunks(input, input.len().max(1))
}

fn in_chunks(input: &[u8], size: usize) -> Vec<Frame> {
    let mut framing = Framing::default();
    let mut frames = Vec::new();
    for chunk in input.chunks(size) {
        framing.buffer.extend_from_slice(chunk);
        frames.extend(std::iter::from_fn(|| framing.next()));
    }
    frames
}

fn body(text: &str) -> Frame {
    Frame::Body(text.as_bytes().into())
}

#[test]
fn headers_are_read_tolerantly() {
    for head in [
        "Content-Length: 2\r\n\r\n",
        "content-length:2\r\n\r\n",
        "CONTENT-LENGTH: 7\r\nContent-Length:  2  \r\n\r\n",
        "Content-Type: application/vscode-jsonrpc\r\nContent-Length: 2\r\n\r\n",
        "Content-Length: 2\r\nContent-Type: application/json; charset=utf8\r\nX: y\r\n\r\n",
        "Content-Length: 2\n\n",
        "\r\n\r\nContent-Length: 2\r\n\r\n",
    ] {
        assert_eq!(frames(format!("{head}{{}}").as_bytes()), [body("{}")], "{head:?}");
    }
}

#[test]
fn an_absurd_length_costs_only_its_own_message() {
    for length in ["-1", "ten", "", "99999999999", "999999999999999999999999", "1e3"] {
        let input =
            format!("Content-Length: {length}\r\n\r\n{{\"a\":1}}Content-Length: 2\r\n\r\n[]");
        assert_eq!(frames(input.as_bytes()), [Frame::Stray, body("[]")], "{length:?}");
    }
}

#[test]
fn a_message_without_length_is_stray() {
    let input = b"Content-Type: x\r\n\r\n{}\r\nContent-Length: 2\r\n\r\n[]";
    assert_eq!(frames(input), [Frame::Stray, body("[]")]);
}

#[test]
fn endless_rubbish_is_not_kept() {
    let mut framing = Framing::default();
    for _ in 0..1000 {
        framing.buffer.extend_from_slice(&[0xAB; 1000]);
        assert_eq!(framing.next(), None);
        assert!(framing.buffer.len() < 100_000);
    }
    framing.buffer.extend_from_slice(b"Content-Length: 2\r\n\r\n[]");
    assert_eq!(framing.next(), Some(body("[]")));
}

#[test]
fn a_length_that_swallows_the_next_message_is_made_good() {
    let mut framing = Framing::default();
    framing
        .buffer
        .extend_from_slice(b"Content-Length: 30\r\n\r\n{\"a\":Content-Length: 2\r\n\r\n[]xyz");
    let Some(Frame::Body(swallowed)) = framing.next() else { panic!("a body was expected") };
    framing.reject(&swallowed);
    assert_eq!(framing.next(), Some(body("[]")));
}

proptest! {
    #[test]
    fn bodies_come_out_as_they_went_in_however_they_are_cut(
        bodies in proptest::collection::vec(proptest::collection::vec(any::<u8>(), 0..40), 0..6),
        size in 1_usize..50,
    ) {
        let mut input = Vec::new();
        for body in &bodies {
            input.extend(format!("Content-Length: {}\r\n\r\n", body.len()).into_bytes());
            input.extend(body);
        }
        let expected: Vec<_> = bodies.iter().map(|body| Frame::Body(body[..].into())).collect();
        prop_assert_eq!(in_chunks(&input, size), expected);
    }

    #[test]
    fn no_bytes_make_it_fail(
        input in proptest::collection::vec(
            prop_oneof![
                any::<u8>().prop_map(|byte| vec![byte]),
                "(?i)content-length: ?[0-9]{0,3}(\r?\n){0,2}".prop_map(String::into_bytes),
            ],
            0..40,
        ),
        size in 1_usize..20,
    ) {
        in_chunks(&input.concat(), size);
    }
}

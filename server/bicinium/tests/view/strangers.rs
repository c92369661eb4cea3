//! Strangers at the door of a page, whoever serves it: they are refused, and the server lives on.

use std::io::{Read, Write};
use std::time::Duration;

use crate::SHEET;
use crate::edited::Edited;
use crate::guest::{Guest, Page, asked};
use crate::served::Served;

#[test]
fn the_page_of_a_file_lets_nobody_else_in() {
    nobody_else_is_let_in(&Served::with(SHEET).page);
}

#[test]
fn the_page_of_an_editor_lets_nobody_else_in() {
    let mut edited = Edited::with(SHEET);
    nobody_else_is_let_in(&edited.page);
    edited.is_alive();
    edited.end();
}

#[test]
fn junk_and_crowds_do_no_harm_to_the_page_of_a_file() {
    junk_and_crowds_do_no_harm(&Served::with(SHEET).page);
}

#[test]
fn junk_and_crowds_do_no_harm_to_an_editor() {
    let mut edited = Edited::with(SHEET);
    junk_and_crowds_do_no_harm(&edited.page);
    edited.is_alive();
    edited.end();
}

fn nobody_else_is_let_in(page: &Page) {
    let (port, token) = (page.port, &page.token);
    let here = format!("Host: 127.0.0.1:{port}");
    let spot = "?number=1&voice=0&at=0&choice=0&edition=0";
    let cases = [
        (format!("GET / HTTP/1.1\r\n{here}"), 404),
        (format!("GET /sheet.json HTTP/1.1\r\n{here}"), 404),
        (format!("GET /{}/ HTTP/1.1\r\n{here}", "0".repeat(32)), 404),
        (format!("GET /{token}/ HTTP/1.1\r\nHost: evil.example"), 403),
        (format!("GET /{token}/ HTTP/1.1\r\nHost: evil.example:{port}"), 403),
        (format!("GET /{token}/ HTTP/1.1\r\n{here}\r\nOrigin: http://evil.example"), 403),
        (format!("GET /{token}/ HTTP/1.1\r\n{here}\r\nOrigin: null"), 403),
        (format!("POST /{token}/ HTTP/1.1\r\n{here}"), 403),
        (format!("POST /{token}/ HTTP/1.1\r\n{here}\r\nOrigin: http://127.0.0.1:{port}"), 405),
        (format!("POST /{token}/write{spot} HTTP/1.1\r\n{here}"), 403),
        (format!("POST /{token}/select{spot} HTTP/1.1\r\n{here}\r\nOrigin: null"), 403),
        (
            format!("POST /{token}/select{spot} HTTP/1.1\r\n{here}\r\nOrigin: http://evil.example"),
            403,
        ),
        (format!("GET /{token}/write{spot} HTTP/1.1\r\n{here}"), 405),
        (format!("GET /{token}/select{spot} HTTP/1.1\r\n{here}"), 405),
        (format!("GET /{token}/../../etc/passwd HTTP/1.1\r\n{here}"), 404),
        (format!("GET /{token}/%2e%2e/%2e%2e/etc/passwd HTTP/1.1\r\n{here}"), 404),
        (format!("GET /{token}/openings.json?number=99&voice=7&at=-1 HTTP/1.1\r\n{here}"), 404),
        (format!("DELETE /{token}/sheet.json HTTP/1.1\r\n{here}"), 405),
        (format!("GET /{token}/ HTTP/1.1\r\n{here}\r\nOrigin: http://127.0.0.1:{port}"), 200),
    ];
    for (head, status) in cases {
        assert_eq!(asked(port, &head).status, status, "{head}");
    }
}

fn junk_and_crowds_do_no_harm(page: &Page) {
    let junk = vec![0xff_u8; 10 << 20];
    let mut guest = Guest::at(page.port);
    // The server breaks off long before all of it is sent.
    assert!(guest.stream.write_all(&junk).is_err());
    let mut guest = Guest::at(page.port);
    let head = format!("GET /{}/?{} HTTP/1.1\r\n", page.token, "x".repeat(1 << 20));
    let _ = guest.stream.write_all(head.as_bytes());
    let crowd: Vec<_> = (0..200).map(|_| Guest::at(page.port)).collect();
    // Those that are too many are closed at once, the others wait for a request.
    std::thread::sleep(Duration::from_millis(300));
    let is_closed = |guest: &Guest| {
        let mut stream = guest.stream.try_clone().unwrap();
        stream.set_read_timeout(Some(Duration::from_millis(10))).unwrap();
        matches!(stream.read(&mut [0]), Ok(0)) || {
            let kind = stream.read(&mut [0]).err().map(|error| error.kind());
            kind == Some(std::io::ErrorKind::ConnectionReset)
        }
    };
    let closed = crowd.iter().filter(|guest| is_closed(guest)).count();
    assert!(closed >= 150, "{closed} of 200 closed");
    drop(crowd);
    let again = || {
        (0..100).any(|_| {
            std::thread::sleep(Duration::from_millis(50));
            page.try_ask("sheet.json").is_some_and(|answer| answer.status == 200)
        })
    };
    assert!(again());
}

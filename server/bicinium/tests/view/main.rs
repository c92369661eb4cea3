//! The page beside the editor, asked by hand: what it answers, to whom, and that it follows the file.

#![allow(clippy::unwrap_used)]

mod browser;
mod guest;
mod served;

use std::io::{Read, Write};
use std::time::Duration;

use guest::{Guest, asked};
use served::Served;

const SHEET: &str = "key G major\n\nexercise \"Quay\"\n  species 1\n  soprano cantus | G4 | A4 | G4 |\n  \
                     bass counter | G3 | F#3 | G3 |\n";

#[test]
fn the_page_and_its_files_are_there() {
    let served = Served::with(SHEET);
    for (path, kind) in [
        ("", "text/html"),
        ("style.css", "text/css"),
        ("main.js", "text/javascript"),
        ("score.js", "text/javascript"),
        ("player.js", "text/javascript"),
        ("sound.js", "text/javascript"),
    ] {
        let answer = served.ask(path);
        assert_eq!(answer.status, 200, "{path}");
        assert!(answer.head.contains(&format!("content-type: {kind}")), "{}", answer.head);
        assert!(answer.head.contains("content-security-policy: default-src 'none'"));
        assert!(answer.head.contains("referrer-policy: no-referrer"));
    }
    assert_eq!(served.ask("../Cargo.toml").status, 404);
    assert_eq!(served.ask("%2e%2e/%2e%2e/etc/passwd").status, 404);
    assert_eq!(served.ask("/etc/passwd").status, 404);
}

#[test]
fn an_exercise_is_told_as_data() {
    let served = Served::with(SHEET);
    let sheet: serde_json::Value = serde_json::from_str(&served.ask("sheet.json").body).unwrap();
    assert_eq!(sheet["exercises"][0]["title"], "Quay");
    let asked = served.ask("exercise.json?number=1&width=120&show=figures");
    let shown: serde_json::Value = serde_json::from_str(&asked.body).unwrap();
    let notes = shown["notes"].as_array().unwrap();
    assert_eq!(notes.len(), 6);
    let second = &notes[4];
    assert_eq!(
        (&second["voice"], &second["at"], &second["lasts"]),
        (&1.into(), &64.into(), &64.into())
    );
    assert_eq!(second["midi"], 54);
    assert_eq!(second["said"], "F#3, lower voice, bar 2");
    let svg = shown["svg"].as_str().unwrap();
    assert!(svg.contains("width=\"120mm\"") && svg.contains("id=\"x1-lower-64\""));
    for wrong in ["number=2&width=120", "number=x&width=120", "number=1", "", "number=1&width=-3"] {
        assert_eq!(served.ask(&format!("exercise.json?{wrong}")).status, 404, "{wrong}");
    }
}

#[test]
fn the_page_follows_the_file() {
    let served = Served::with(SHEET);
    let mut news = served.listen();
    assert_eq!(news.next(), "0");
    served.write(&SHEET.replace("Quay", "Mill"));
    assert_eq!(news.next(), "1");
    assert!(served.ask("sheet.json").body.contains("Mill"));
    served.remove();
    assert_eq!(news.next(), "2");
    assert!(served.ask("sheet.json").body.contains("there is no such file"));
}

#[test]
fn nobody_else_is_let_in() {
    let served = Served::with(SHEET);
    let (port, token) = (served.port, &served.token);
    let here = format!("Host: 127.0.0.1:{port}");
    let cases = [
        (format!("GET / HTTP/1.1\r\n{here}"), 404),
        (format!("GET /sheet.json HTTP/1.1\r\n{here}"), 404),
        (format!("GET /{}/ HTTP/1.1\r\n{here}", "0".repeat(32)), 404),
        (format!("GET /{token}/ HTTP/1.1\r\nHost: evil.example"), 403),
        (format!("GET /{token}/ HTTP/1.1\r\nHost: evil.example:{port}"), 403),
        (format!("GET /{token}/ HTTP/1.1\r\n{here}\r\nOrigin: http://evil.example"), 403),
        (format!("GET /{token}/ HTTP/1.1\r\n{here}\r\nOrigin: null"), 403),
        (format!("POST /{token}/ HTTP/1.1\r\n{here}"), 405),
        (format!("DELETE /{token}/sheet.json HTTP/1.1\r\n{here}"), 405),
        (format!("GET /{token}/ HTTP/1.1\r\n{here}\r\nOrigin: http://127.0.0.1:{port}"), 200),
    ];
    for (head, status) in cases {
        assert_eq!(asked(port, &head).status, status, "{head}");
    }
}

#[test]
fn junk_and_crowds_do_no_harm() {
    let served = Served::with(SHEET);
    let junk = vec![0xff_u8; 10 << 20];
    let mut guest = Guest::at(served.port);
    // The server breaks off long before all of it is sent.
    assert!(guest.stream.write_all(&junk).is_err());
    let mut guest = Guest::at(served.port);
    let head = format!("GET /{}/?{} HTTP/1.1\r\n", served.token, "x".repeat(1 << 20));
    let _ = guest.stream.write_all(head.as_bytes());
    let crowd: Vec<_> = (0..200).map(|_| Guest::at(served.port)).collect();
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
            served.try_ask("sheet.json").is_some_and(|answer| answer.status == 200)
        })
    };
    assert!(again());
}

#[test]
fn a_sheet_that_is_not_there_is_told() {
    let output = std::process::Command::new(env!("CARGO_BIN_EXE_bicinium"))
        .args(["view", "no-such.bicinium"])
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(said, "bicinium: no-such.bicinium cannot be read: there is no such file.\n");
}

//! Whatever a client sends, the server answers or ends, and nothing breaks.

use bicinium::recording::Recorder;
use tokio::io::{AsyncReadExt, AsyncWriteExt, duplex};

const GREETING: &str =
    "{\"jsonrpc\":\"2.0\",\"id\":0,\"method\":\"initialize\",\"params\":{\"capabilities\":{}}}";

/// Sends what is between lines of `%` as messages, and the rest as it is.
pub fn attempt(bytes: &[u8]) {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
    runtime.block_on(async {
        let (mut client, input) = duplex(1 << 20);
        let (output, mut server) = duplex(1 << 20);
        let serving = bicinium::lsp::serve(input, output, Recorder::default());
        let talk = async {
            let greeting = format!("Content-Length: {}\r\n\r\n{GREETING}", GREETING.len());
            client.write_all(greeting.as_bytes()).await.unwrap();
            // What stands between two lines of `%` is a message; the rest is sent as it is.
            for (number, piece) in bytes.split(|byte| *byte == b'%').enumerate() {
                let header = format!("Content-Length: {}\r\n\r\n", piece.len());
                let header = if number % 2 == 1 { header.as_bytes() } else { b"" };
                if client.write_all(header).await.and(client.write_all(piece).await).is_err() {
                    break;
                }
            }
            drop(client);
            let mut told = Vec::new();
            let _ = server.read_to_end(&mut told).await;
            assert!(!told.is_empty());
        };
        tokio::join!(serving, talk);
    });
}

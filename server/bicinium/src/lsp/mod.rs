//! The language server: the only place that knows the protocol.
//!
//! It turns what an editor asks into plain questions to the rest of the program and plain answers
//! into what the editor expects. It must not judge music itself, and no protocol type leaves it.
//!
//! Standard output belongs to the protocol; whatever else there is to say goes to standard error.

mod alarm;
mod allocator;
mod beforehand;
mod blocks;
mod client;
mod commands;
mod configuration;
mod convert;
mod document;
mod documents;
mod foresight;
mod library;
mod names;
mod newer;
mod painted;
mod publisher;
mod refresher;
mod rehearsal;
mod rendered;
mod roots;
mod rule_pages;
mod rulebooks;
mod score_pages;
mod server;
mod settings;
mod sheets;
mod shown;
mod survey;
mod symbols;
mod telling;
mod text;
mod transport;
mod unopened;
mod watch;
mod worker;

use std::process::ExitCode;

use tokio::io::{AsyncRead, AsyncWrite};
use tower_lsp::LspService;

use self::server::Server;
use crate::recording::Recorder;

/// How many threads at most read, write, judge and answer: enough for one person at the keyboard, and the
/// allocator keeps for each what it once needed.
const MOST_AT_WORK: usize = 6;

/// Serves one editor over standard input and output until it is done, and returns the exit code
/// that the protocol asks for: 0 after an orderly shutdown, 1 otherwise. The recorder takes down what
/// is said.
pub fn run(recorder: Recorder) -> ExitCode {
    allocator::keep_little();
    let mut runtime = tokio::runtime::Builder::new_multi_thread();
    let Ok(runtime) = runtime.enable_all().max_blocking_threads(MOST_AT_WORK).build() else {
        return ExitCode::FAILURE;
    };
    let code = runtime.block_on(serve(tokio::io::stdin(), tokio::io::stdout(), recorder));
    // Waiting for the runtime would wait for a read of standard input that may never end.
    runtime.shutdown_background();
    u8::try_from(code).map_or(ExitCode::FAILURE, ExitCode::from)
}

/// Serves one client over any pair of byte streams, within a Tokio runtime. Returns the exit code
/// as [`run`] does.
pub async fn serve<I, O>(input: I, output: O, recorder: Recorder) -> i32
where
    I: AsyncRead + Unpin,
    O: AsyncWrite + Unpin + Send + 'static,
{
    let writing = transport::start(output, recorder);
    let outbox = writing.0.clone();
    let (service, socket) = LspService::build(|client| Server::new(client, outbox))
        .custom_method(newer::TEXT_DOCUMENT_CONTENT, Server::text_document_content)
        .custom_method(newer::PROGRESS_CANCEL, Server::progress_cancelled)
        .custom_method(newer::CURSOR, Server::cursor_moved)
        .finish();
    transport::serve(newer::Newer(service), socket, input, writing).await
}

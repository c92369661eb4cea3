//! Results that are written out already. The library would make a tree of values of every result before
//! it is written; a handler that has much to say hands over the bytes instead, and they are sent in the
//! place of what it returns.
//!
//! It must not know what they say.

use std::sync::{Arc, Mutex, PoisonError};

use serde::Serialize;

tokio::task_local! {
    /// Where the handler that is running puts its result.
    static TRAY: Tray;
}

type Tray = Arc<Mutex<Option<Vec<u8>>>>;

/// Hands over the result of the handler that is running, as JSON.
pub(in crate::lsp) fn hand_over(result: Vec<u8>) {
    let _ =
        TRAY.try_with(|tray| *tray.lock().unwrap_or_else(PoisonError::into_inner) = Some(result));
}

/// Something as JSON; nothing is `null`.
pub(in crate::lsp) fn written_out(result: &impl Serialize) -> Vec<u8> {
    serde_json::to_vec(result).unwrap_or_else(|_| b"null".to_vec())
}

/// Runs a handler, and gives what it returns and what it has handed over.
pub(super) async fn with_tray<F: Future>(handler: F) -> (F::Output, Option<Vec<u8>>) {
    let tray = Tray::default();
    let output = TRAY.scope(tray.clone(), handler).await;
    let handed_over = tray.lock().unwrap_or_else(PoisonError::into_inner).take();
    (output, handed_over)
}

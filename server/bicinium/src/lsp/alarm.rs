//! Tells the user, once, that something in the server has broken: nothing is lost, and how what
//! happened can be sent to those who can mend it. What broke is caught elsewhere.
//!
//! It must not know what the server was doing.

use std::panic::{PanicHookInfo, set_hook, take_hook};
use std::sync::Once;

use tokio::sync::mpsc::{UnboundedReceiver, UnboundedSender, unbounded_channel};
use tower_lsp::Client;
use tower_lsp::lsp_types::MessageType;

/// What the user is told.
const WORDS: &str = "Something went wrong inside bicinium. Your sheets are untouched, and with the \
                     next change it goes on as usual. If it happens again, let your editor start \
                     `bicinium lsp --record FILE`, do the same once more, and send FILE with the \
                     lines that the server wrote to its log to those who look after bicinium.";

/// The crate whose panics are caught where they are expected: a reply that nobody waits for.
const EXPECTED: &str = "tower-lsp";

/// Watches for panics as long as the process runs, and tells this client of the first one. It has to
/// be called within a Tokio runtime; later calls change nothing.
pub(super) fn set(client: Client) {
    static SET: Once = Once::new();
    SET.call_once(|| {
        let (bell, rung) = unbounded_channel();
        listen(bell);
        tokio::spawn(tell_once(rung, move |words| async move {
            client.show_message(MessageType::ERROR, words).await;
        }));
    });
}

/// Lets every panic ring, after it has been written to the log.
fn listen(bell: UnboundedSender<()>) {
    let log = take_hook();
    set_hook(Box::new(move |panic| {
        log(panic);
        if is_unexpected(panic) {
            // After the first time nobody listens.
            let _ = bell.send(());
        }
    }));
}

fn is_unexpected(panic: &PanicHookInfo<'_>) -> bool {
    panic.location().is_none_or(|location| !location.file().contains(EXPECTED))
}

async fn tell_once<F: Future<Output = ()>>(
    mut rung: UnboundedReceiver<()>,
    tell: impl FnOnce(&'static str) -> F,
) {
    if rung.recv().await.is_some() {
        tell(WORDS).await;
    }
}

#[cfg(test)]
mod tests {
    use std::panic::catch_unwind;
    use std::sync::atomic::{AtomicUsize, Ordering};

    use tokio::sync::mpsc::unbounded_channel;

    use super::{listen, tell_once};

    #[tokio::test]
    async fn a_panic_is_told_once() {
        let (bell, rung) = unbounded_channel();
        listen(bell);
        for _ in 0..3 {
            assert!(catch_unwind(|| panic!("on purpose")).is_err());
        }
        let count = AtomicUsize::new(0);
        let told = tell_once(rung, |words| {
            count.fetch_add(1, Ordering::Relaxed);
            assert!(words.contains("--record"));
            std::future::ready(())
        });
        told.await;
        assert_eq!(count.into_inner(), 1);
    }
}

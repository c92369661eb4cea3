//! How far something has come, told to the client under a token.
//!
//! It must not know what is done.

use tokio::runtime::Handle;
use tower_lsp::Client;
use tower_lsp::lsp_types::notification::Progress;
use tower_lsp::lsp_types::{
    ProgressParams, ProgressParamsValue, ProgressToken, WorkDoneProgress, WorkDoneProgressBegin,
    WorkDoneProgressEnd, WorkDoneProgressReport,
};

/// Tells a client how far something has come; nothing without a token. It ends when it is dropped.
pub(super) struct Telling {
    client: Client,
    token: Option<ProgressToken>,
    handle: Handle,
}

impl Telling {
    /// Tells that something begins, and whether it can be cancelled. It has to be made within a Tokio
    /// runtime, and used away from its tasks.
    pub(super) fn begin(
        client: Client,
        token: Option<ProgressToken>,
        title: &str,
        cancellable: bool,
    ) -> Self {
        let telling = Telling { client, token, handle: Handle::current() };
        telling.tell(WorkDoneProgress::Begin(WorkDoneProgressBegin {
            title: title.to_owned(),
            cancellable: cancellable.then_some(true),
            percentage: Some(0),
            ..WorkDoneProgressBegin::default()
        }));
        telling
    }

    /// Tells how much is done, in hundredths.
    pub(super) fn done(&self, percentage: u32, message: Option<String>) {
        self.tell(WorkDoneProgress::Report(WorkDoneProgressReport {
            message,
            percentage: Some(percentage.min(100)),
            ..WorkDoneProgressReport::default()
        }));
    }

    fn tell(&self, value: WorkDoneProgress) {
        if let Some(token) = &self.token {
            let value = ProgressParamsValue::WorkDone(value);
            let params = ProgressParams { token: token.clone(), value };
            self.handle.block_on(self.client.send_notification::<Progress>(params));
        }
    }
}

impl Drop for Telling {
    fn drop(&mut self) {
        self.tell(WorkDoneProgress::End(WorkDoneProgressEnd::default()));
    }
}

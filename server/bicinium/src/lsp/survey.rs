//! A look at the whole workspace: every sheet that is open and every one in the folders of the client,
//! with how far the look has come where the client wants to know.
//!
//! It must not know what is found in a sheet.

use std::path::PathBuf;
use std::sync::Arc;

use tokio::sync::oneshot;
use tokio::task::spawn_blocking;
use tower_lsp::Client;
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::lsp_types::{Url, WorkspaceDiagnosticParams};

use super::client::ClientProfile;
use super::convert::workspace::{Previous, reply};
use super::document::Judged;
use super::library::normal;
use super::sheets::in_folders;
use super::telling::Telling;
use super::unopened::Unopened;

/// After how many sheets it is told how far it has come.
const STRIDE: usize = 16;

/// What a look is taken at.
pub(super) struct Survey {
    /// The open documents, with the line by which each tells what is thought of it.
    pub(super) open: Vec<(Url, oneshot::Receiver<Judged>)>,
    /// The sheets that are not open.
    pub(super) unopened: Unopened,
    /// The folders of the client.
    pub(super) folders: Vec<PathBuf>,
    /// Who wants to know how far it has come.
    pub(super) client: Client,
    /// What the client can do.
    pub(super) profile: Arc<ClientProfile>,
}

impl Survey {
    /// Takes the look; the reply is written out.
    pub(super) async fn report(self, params: WorkspaceDiagnosticParams) -> Result<Vec<u8>> {
        let mut open = Vec::new();
        for (uri, asked) in self.open {
            open.push((uri, asked.await.map_err(|_| Error::internal_error())?));
        }
        let looking = spawn_blocking(move || {
            let token = params.work_done_progress_params.work_done_token;
            let mut previous = Previous::new(params.previous_result_ids);
            let mut reports = Vec::new();
            let mut others = in_folders(&self.folders);
            for (uri, judged) in &open {
                others.remove(&normal(uri));
                let version = Some(i64::from(judged.version));
                reports.push(previous.report(uri, judged, version, &self.profile));
            }
            let telling = Telling::begin(self.client, token, "Marking the sheets", false);
            for (count, (uri, path)) in others.iter().enumerate() {
                if count.is_multiple_of(STRIDE) {
                    tell(&telling, count, others.len());
                }
                let judged = self.unopened.judged(path, uri);
                reports.extend(judged.map(|it| previous.report(uri, &it, None, &self.profile)));
            }
            reports.extend(previous.gone());
            reply(&reports)
        });
        looking.await.map_err(|_| Error::internal_error())
    }
}

/// Tells how many sheets are done.
fn tell(telling: &Telling, count: usize, all: usize) {
    let percentage = u32::try_from(count * 100 / all.max(1)).unwrap_or(100);
    telling.done(percentage, Some(format!("{count} of {all} sheets")));
}

//! What a page asks of the editor: to select a note, and to write a choice into the sheet. All that is
//! written goes through the editor.
//!
//! It must not know what a page is.

use std::fmt;
use std::ops::Range;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, Weak};
use std::time::Duration;

use futures::FutureExt;
use futures::future::BoxFuture;
use tokio::time::timeout;
use tower_lsp::Client;
use tower_lsp::lsp_types::{Position, ShowDocumentParams, Url, WorkspaceEdit};

use crate::lsp::client::{Ability, ClientProfile};
use crate::lsp::convert::edit::workspace_edit;
use crate::lsp::document::Judged;
use crate::lsp::documents::Documents;
use crate::lsp::text::Encoding;
use crate::view::{Done, Editor};

/// How long an editor may take.
const PATIENCE: Duration = Duration::from_secs(20);

const OVERTAKEN: &str = "The sheet has changed meanwhile. Choose again.";
const NOT_SELECTED: &str = "The editor did not go to the note.";
const CANNOT_SELECT: &str = "This editor cannot be asked to go to a note.";
const NOT_WRITTEN: &str = "The editor did not take the notes; the sheet is as it was.";
const CANNOT_WRITE: &str = "This editor takes no changes from here; write the notes there.";

/// What a page shows at the moment, with what positions in it are made of. Copies are the same.
#[derive(Clone)]
pub(super) struct Latest(Arc<Mutex<(u64, Judged)>>);

impl Latest {
    pub(super) fn new(edition: u64, judged: Judged) -> Self {
        Self(Arc::new(Mutex::new((edition, judged))))
    }

    pub(super) fn replace(&self, edition: u64, judged: Judged) {
        *self.lock() = (edition, judged);
    }

    pub(super) fn offset(&self, position: Position, encoding: Encoding) -> usize {
        self.lock().1.text.offset(position, encoding)
    }

    pub(super) fn version(&self) -> i32 {
        self.lock().1.version
    }

    /// An edition, if it is the latest.
    fn edition(&self, number: u64) -> Option<Judged> {
        let latest = self.lock();
        (latest.0 == number).then(|| latest.1.clone())
    }

    fn lock(&self) -> MutexGuard<'_, (u64, Judged)> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// The editor, as far as the page of a sheet is concerned.
pub(super) struct Desk {
    pub(super) client: Client,
    pub(super) profile: Arc<ClientProfile>,
    pub(super) uri: Url,
    pub(super) latest: Latest,
    pub(super) documents: Weak<Documents>,
}

impl fmt::Debug for Desk {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.debug_struct("Desk").field("uri", &self.uri.as_str()).finish_non_exhaustive()
    }
}

impl Desk {
    /// An edition that still is what stands in the editor.
    fn present(&self, edition: u64) -> Option<Judged> {
        let judged = self.latest.edition(edition)?;
        let written = self.documents.upgrade()?.written(&self.uri)?;
        (written.version == Some(judged.version)).then_some(judged)
    }
}

impl Editor for Desk {
    fn select(&self, edition: u64, bytes: Range<usize>) -> BoxFuture<'static, Done> {
        let selection = match self.present(edition) {
            _ if !self.profile.can(Ability::ShowDocument) => Err(CANNOT_SELECT),
            Some(judged) => Ok(judged.text.range(bytes, self.profile.encoding)),
            None => Err(OVERTAKEN),
        };
        let (client, uri) = (self.client.clone(), self.uri.clone());
        async move {
            // The page keeps the keyboard, so that one can go on from note to note.
            let (external, take_focus) = (Some(false), Some(false));
            let selection = Some(selection?);
            let params = ShowDocumentParams { uri, external, take_focus, selection };
            match timeout(PATIENCE, client.show_document(params)).await {
                Ok(Ok(true)) => Ok(()),
                _ => Err(NOT_SELECTED),
            }
        }
        .boxed()
    }

    fn write(
        &self,
        edition: u64,
        changes: Vec<(Range<usize>, String)>,
    ) -> BoxFuture<'static, Done> {
        let edit = match self.present(edition) {
            _ if !self.profile.can(Ability::ApplyEdit) => Err(CANNOT_WRITE),
            Some(judged) => Ok(workspace_edit(&judged, &self.uri, changes, &self.profile)),
            None => Err(OVERTAKEN),
        };
        apply(self.client.clone(), edit).boxed()
    }
}

async fn apply(client: Client, edit: Result<WorkspaceEdit, &'static str>) -> Done {
    match timeout(PATIENCE, client.apply_edit(edit?)).await {
        Ok(Ok(answer)) if answer.applied => Ok(()),
        _ => Err(NOT_WRITTEN),
    }
}

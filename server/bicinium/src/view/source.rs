//! Where a page gets what it shows, and what becomes of what is chosen on it: a line of editions, and an
//! editor if there is one. Knows neither files nor the protocol of editors.

use std::fmt::Debug;
use std::ops::Range;
use std::sync::Arc;

use futures::future::BoxFuture;
use tokio::sync::watch;

use super::edition::Editions;

/// Where the cursor of the editor stands, in bytes of the sheet; `None` as long as nobody knows.
pub type Cursor = watch::Receiver<Option<usize>>;

/// What a page shows, and the editor that it belongs to.
#[derive(Clone, Debug)]
pub struct Source {
    /// The editions of the sheet.
    pub editions: Editions,
    /// The editor; `None` for a sheet that is only shown.
    pub editor: Option<Attached>,
}

/// An editor in which the sheet is open.
#[derive(Clone, Debug)]
pub struct Attached {
    /// Where its cursor stands.
    pub cursor: Cursor,
    /// What can be asked of it.
    pub editor: Arc<dyn Editor>,
}

/// What the page asks of an editor.
pub trait Editor: Debug + Send + Sync {
    /// Selects a stretch of the sheet, in bytes of an edition.
    fn select(&self, edition: u64, bytes: Range<usize>) -> BoxFuture<'static, Done>;

    /// Writes into the sheet: stretches in bytes of an edition, and what is to stand there.
    fn write(&self, edition: u64, changes: Vec<(Range<usize>, String)>)
    -> BoxFuture<'static, Done>;
}

/// What has become of something that was asked: nothing more to say, or why it was not done, as a
/// sentence.
pub type Done = Result<(), &'static str>;

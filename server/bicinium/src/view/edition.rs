//! A sheet as it was at some moment, and the line on which new ones come. Knows neither where they come
//! from nor who looks on.

use std::sync::Arc;

use bicinium_analysis::Snapshot;
use tokio::sync::watch;

/// A sheet as it was at some moment.
#[derive(Clone, Debug)]
pub struct Edition {
    /// How many there have been before it.
    pub number: u64,
    /// The name of the sheet.
    pub name: String,
    /// The sheet, judged; or why it cannot be shown, as the end of a sentence.
    pub sheet: Result<Arc<Snapshot>, String>,
}

/// All editions, the newest first.
pub type Editions = watch::Receiver<Arc<Edition>>;

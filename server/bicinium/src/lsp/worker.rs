//! Where a document is judged: a sheet kept up to date order by order, away from the tasks that
//! serve the client.
//!
//! It must not know what becomes of its results.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;

use bicinium_analysis::Sheet;
use bicinium_analysis::sheet::Unjudged;
use tokio::sync::mpsc::UnboundedReceiver;
use tokio::task::spawn_blocking;
use tower_lsp::lsp_types::Url;

use super::document::{Judged, Order, State};
use super::library::Borrower;
use super::rehearsal::{self, Moment};
use super::rulebooks::{Reader, is_rulebook};
use super::text::Text;

/// How many orders are carried out before the task looks whether there are newer ones.
const BATCH: usize = 1024;

/// What is called with the result whenever the worker has caught up.
pub(super) type Settled = Arc<dyn Fn(&Judged, Cause) + Send + Sync>;

/// Why there is another result.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Cause {
    /// The document has changed.
    Own,
    /// Something has changed that it depends on.
    Others,
}

/// Carries out orders until the document is closed. A result that a newer order has overtaken is
/// shown to nobody.
pub(super) async fn work(
    mut queue: UnboundedReceiver<Order>,
    mut worker: Worker,
    settled: Settled,
) {
    let mut orders = Vec::new();
    while queue.recv_many(&mut orders, BATCH).await > 0 {
        let batch = std::mem::take(&mut orders);
        let working = spawn_blocking(move || worker.carry_out(batch));
        let Ok(rested) = working.await else { return };
        worker = rested;
        if queue.is_empty() && !queue.is_closed() {
            let settled = settled.clone();
            let Ok(rested) = spawn_blocking(move || worker.settle(&settled)).await else { return };
            worker = rested;
        }
    }
}

/// A sheet with what it was made from.
pub(super) struct Worker {
    reader: Reader,
    borrower: Borrower,
    text: Text,
    version: i32,
    /// Made when it is needed; lost if judging it failed.
    sheet: Option<Sheet>,
    /// Why there is something to tell; `None` if there is nothing.
    news: Option<Cause>,
}

impl Worker {
    /// A worker for a sheet that may name rulebooks and borrow from other sheets.
    pub(super) fn new(reader: Reader, borrower: Borrower) -> Self {
        Worker { reader, borrower, text: Text::default(), version: 0, sheet: None, news: None }
    }

    fn carry_out(mut self, orders: Vec<Order>) -> Self {
        for order in orders {
            match order {
                Order::Take(state) => self.take(state),
                Order::LookUp(other) => self.look_up(&other),
                Order::BeginAnew => {
                    self.sheet = None;
                    self.news = self.news.max(Some(Cause::Others));
                }
                Order::ShowAgain => self.news = self.news.max(Some(Cause::Others)),
                Order::Tell(answer) if answer.is_closed() => {}
                Order::Tell(answer) => {
                    let _ = self.judged().map(|judged| answer.send(judged));
                }
            }
        }
        self
    }

    fn settle(mut self, settled: &Settled) -> Self {
        if let Some(cause) = self.news.take()
            && let Some(judged) = self.judged()
        {
            unharmed(|| settled(&judged, cause));
        }
        self
    }

    fn take(&mut self, state: State) {
        self.sheet = match (self.sheet.take(), state.edit) {
            (Some(mut sheet), Some((replaced, insert))) => unharmed(|| {
                rehearsal::at(Moment::Editing, &state.text);
                sheet.edit(replaced, &insert);
                self.borrower.borrow(&mut sheet);
                self.reader.shelve(&mut sheet);
                sheet
            }),
            _ => None,
        };
        (self.text, self.version) = (state.text, state.version);
        self.news = self.news.max(Some(Cause::Own));
    }

    fn look_up(&mut self, other: &Url) {
        let sheet = self.sheet.take();
        self.sheet = sheet.and_then(|mut sheet| {
            unharmed(|| {
                let is_new = if is_rulebook(other) {
                    self.reader.shelve_again(&mut sheet)
                } else {
                    self.borrower.borrow_again(&mut sheet, other)
                };
                self.news = self.news.max(is_new.then_some(Cause::Others));
                sheet
            })
        });
    }

    fn judged(&mut self) -> Option<Judged> {
        let sheet = self.sheet.take().or_else(|| self.fresh_sheet())?;
        let (sheet, snapshot) = unharmed(|| {
            let snapshot = sheet.snapshot();
            (sheet, snapshot)
        })?;
        self.sheet = Some(sheet);
        Some(Judged { text: self.text.clone(), version: self.version, snapshot })
    }

    fn fresh_sheet(&mut self) -> Option<Sheet> {
        unharmed(|| {
            rehearsal::at(Moment::Judging, &self.text);
            let sheet = Unjudged::new(&self.text.to_string());
            let imports = self.borrower.begin(&sheet);
            let books = self.reader.begin(&sheet);
            sheet.judge(imports, books)
        })
    }
}

/// Runs something that is not supposed to panic. If it does, this document loses a result, and
/// the server goes on with the next change.
fn unharmed<T>(work: impl FnOnce() -> T) -> Option<T> {
    catch_unwind(AssertUnwindSafe(work)).ok()
}

#[cfg(test)]
mod tests {
    use super::unharmed;

    #[test]
    fn a_panic_costs_one_result() {
        assert_eq!(unharmed(|| 1), Some(1));
        assert_eq!(unharmed(|| -> u8 { panic!("on purpose") }), None);
    }
}

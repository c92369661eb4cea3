//! One open document: its text as the client has it, and a line to the task that judges it.
//!
//! The text changes at once; the judging follows order by order, so that a question is answered
//! for exactly the text about which it was asked. It must not know how a sheet is judged.

use std::ops::Range;
use std::sync::Arc;

use bicinium_analysis::Snapshot;
use tokio::sync::mpsc::{UnboundedSender, unbounded_channel};
use tokio::sync::oneshot;
use tower_lsp::lsp_types::{TextDocumentContentChangeEvent, Url};

use super::sheets::{Parsed, Written};
use super::text::{Encoding, Text};
use super::worker::{self, Settled, Worker};
use crate::waiting::{OpenQuestions, Question};

/// An open document. The task ends when it is dropped.
pub(super) struct Document {
    text: Text,
    version: i32,
    /// For questions that need no judging.
    tree: Parsed,
    orders: UnboundedSender<Order>,
    questions: OpenQuestions,
}

/// What is thought of one state of a document. A copy costs next to nothing.
#[derive(Clone)]
pub(super) struct Judged {
    /// The text that was judged.
    pub(super) text: Text,
    /// The version that the client gave it.
    pub(super) version: i32,
    /// The sheet as it is judged.
    pub(super) snapshot: Arc<Snapshot>,
}

/// A state of a document, and how it came from the one before.
pub(super) struct State {
    pub(super) text: Text,
    pub(super) version: i32,
    /// The bytes that were replaced and what stands there now; `None` if all is new.
    pub(super) edit: Option<(Range<usize>, String)>,
}

/// What the task is asked to do.
pub(super) enum Order {
    /// To go over to this state.
    Take(State),
    /// To look again at what another sheet lends.
    LookUp(Url),
    /// To judge everything anew.
    BeginAnew,
    /// To show again what is thought: more is known now.
    ShowAgain,
    /// To tell what is thought of the present state.
    Tell(oneshot::Sender<Judged>),
}

impl Document {
    /// Takes a text into care. Whenever everything that was ordered is done, `settled` is called
    /// with the result.
    pub(super) fn open(text: Text, version: i32, worker: Worker, settled: Settled) -> Self {
        let (orders, queue) = unbounded_channel();
        tokio::spawn(worker::work(queue, worker, settled));
        let (tree, questions) = (Parsed::default(), OpenQuestions::default());
        let document = Document { text: text.clone(), version, tree, orders, questions };
        document.order(Order::Take(State { text, version, edit: None }));
        document
    }

    /// Applies one change of the client.
    pub(super) fn change(
        &mut self,
        change: TextDocumentContentChangeEvent,
        version: i32,
        encoding: Encoding,
    ) {
        self.questions.overtake();
        let replaced = self.text.change(change.range, &change.text, encoding);
        self.version = version;
        self.tree.edit(&replaced, &change.text);
        let edit = change.range.map(|_| (replaced, change.text));
        self.order(Order::Take(State { text: self.text.clone(), version, edit }));
    }

    /// The text as the client has it now.
    pub(super) fn text(&self) -> Text {
        self.text.clone()
    }

    /// The same with the address and the version that the client has for it.
    pub(super) fn written(&self, uri: Url) -> Written {
        let (text, tree) = (self.text.clone(), self.tree.clone());
        Written { uri, text, version: Some(self.version), tree }
    }

    /// What is thought of the text as it is now.
    pub(super) fn ask(&self) -> oneshot::Receiver<Judged> {
        let (answer, asked) = oneshot::channel();
        self.order(Order::Tell(answer));
        asked
    }

    /// What is thought of the text as it is now, for a question that takes its time.
    pub(super) fn question(&mut self) -> (Question, oneshot::Receiver<Judged>) {
        (self.questions.ask(), self.ask())
    }

    /// Says that more is known of the sheet as it is.
    pub(super) fn show_again(&self) {
        self.order(Order::ShowAgain);
    }

    /// Says that another sheet has changed, from which this one may take something.
    pub(super) fn look_up(&self, other: &Url) {
        self.order(Order::LookUp(other.clone()));
    }

    /// Says that something has changed that every sheet depends on.
    pub(super) fn begin_anew(&self) {
        self.order(Order::BeginAnew);
    }

    fn order(&self, order: Order) {
        // The task outlives the document, so the line is open.
        let _ = self.orders.send(order);
    }
}

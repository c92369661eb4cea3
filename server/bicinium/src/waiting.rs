//! Whether anybody still waits for an answer: nobody does once the request is cancelled, nor once the
//! document has changed about which it was asked.
//!
//! It must not know what was asked.

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Weak};

/// A question that takes its time. Who asked it gives up by dropping it.
#[derive(Debug, Default)]
pub(crate) struct Question(Arc<AtomicBool>);

/// The open questions about a document.
#[derive(Debug, Default)]
pub(crate) struct OpenQuestions(Vec<Weak<AtomicBool>>);

impl Question {
    /// What is set when nobody waits any more.
    pub(crate) fn given_up(&self) -> Arc<AtomicBool> {
        self.0.clone()
    }

    /// Whether the document has changed since.
    pub(crate) fn is_overtaken(&self) -> bool {
        self.0.load(Ordering::Relaxed)
    }
}

impl Drop for Question {
    fn drop(&mut self) {
        self.0.store(true, Ordering::Relaxed);
    }
}

impl OpenQuestions {
    /// A question about the document as it is now.
    pub(crate) fn ask(&mut self) -> Question {
        self.0.retain(|open| open.strong_count() > 0);
        let question = Question::default();
        self.0.push(Arc::downgrade(&question.0));
        question
    }

    /// The document has changed: they are all overtaken.
    pub(crate) fn overtake(&mut self) {
        for open in self.0.drain(..).filter_map(|open| open.upgrade()) {
            open.store(true, Ordering::Relaxed);
        }
    }
}

#[cfg(test)]
mod tests {
    use std::sync::atomic::Ordering;

    use super::OpenQuestions;

    #[test]
    fn a_change_overtakes_what_was_asked_before_it() {
        let mut open = OpenQuestions::default();
        let (first, second) = (open.ask(), open.ask());
        open.overtake();
        let third = open.ask();
        assert!(first.is_overtaken() && second.is_overtaken() && !third.is_overtaken());
    }

    #[test]
    fn who_asked_gives_up_by_going_away() {
        let question = OpenQuestions::default().ask();
        let given_up = question.given_up();
        assert!(!given_up.load(Ordering::Relaxed));
        drop(question);
        assert!(given_up.load(Ordering::Relaxed));
    }
}

//! What was worked out for the exercises that were edited last, so that the next edit in one of them
//! goes on from there. That of all others is not kept: it would be larger than the sheet.

use std::sync::Arc;

use bicinium_grammar::BlockTree;

use crate::judge::Course;
use crate::score::lower::Readings;

/// How many exercises are edited by turns without one of them being judged from its beginning.
const MOST: usize = 4;

/// What was worked out for an exercise; nothing yet by default.
#[derive(Debug, Default)]
pub(super) struct Workings {
    /// What was read of its rows.
    pub rows: Readings,
    /// The course of judging it.
    pub course: Option<Course>,
}

/// What was worked out for the exercises that were edited last, the latest last.
#[derive(Debug, Default)]
pub(super) struct LastEdited {
    kept: Vec<(Arc<BlockTree>, Workings)>,
}

impl LastEdited {
    /// Takes out what belongs to an exercise.
    pub(super) fn take(&mut self, tree: &Arc<BlockTree>) -> Option<Workings> {
        let at = self.kept.iter().position(|(known, _)| Arc::ptr_eq(known, tree))?;
        Some(self.kept.remove(at).1)
    }

    /// Keeps what belongs to an exercise, and forgets the oldest if there is too much.
    pub(super) fn keep(&mut self, tree: &Arc<BlockTree>, workings: Workings) {
        if self.kept.len() == MOST {
            self.kept.remove(0);
        }
        self.kept.push((tree.clone(), workings));
    }
}

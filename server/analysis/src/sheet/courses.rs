//! The courses of the exercises that were edited last, so that the next edit in one of them goes on
//! from there. Those of all others are not kept: they would be larger than the sheet.

use std::sync::Arc;

use bicinium_grammar::BlockTree;

use crate::judge::Course;

/// How many exercises are edited by turns without one of them being judged from its beginning.
const MOST: usize = 4;

/// The courses of the exercises that were edited last, the latest last.
#[derive(Debug, Default)]
pub(super) struct Courses {
    kept: Vec<(Arc<BlockTree>, Course)>,
}

impl Courses {
    /// Takes out the course of an exercise.
    pub(super) fn take(&mut self, tree: &Arc<BlockTree>) -> Option<Course> {
        let at = self.kept.iter().position(|(known, _)| Arc::ptr_eq(known, tree))?;
        Some(self.kept.remove(at).1)
    }

    /// Keeps the course of an exercise, and forgets the oldest if there are too many.
    pub(super) fn keep(&mut self, tree: &Arc<BlockTree>, course: Course) {
        if self.kept.len() == MOST {
            self.kept.remove(0);
        }
        self.kept.push((tree.clone(), course));
    }
}

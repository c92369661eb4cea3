//! A sheet that has been marked, and its findings as every report needs them. It must not know how
//! they are told.

use std::collections::BTreeSet;
use std::path::PathBuf;
use std::sync::Arc;

use bicinium_analysis::{Finding, Level, Located, Snapshot};

use super::desk::Desk;
use super::sources::Source;

/// A sheet that has been marked.
#[derive(Debug)]
pub(super) struct Marked {
    /// Where it comes from.
    pub(super) source: Source,
    /// What it says.
    pub(super) text: String,
    /// The files of the rulebooks that it names.
    pub(super) rulebooks: BTreeSet<PathBuf>,
    snapshot: Arc<Snapshot>,
}

impl Marked {
    /// Marks a sheet, with what it takes from others.
    pub(super) fn new(source: Source, text: String, desk: &mut Desk) -> Self {
        let (sheet, rulebooks) = desk.judge(&text, &source);
        let snapshot = sheet.snapshot();
        Self { source, text, rulebooks, snapshot }
    }

    /// The sheet as it was judged.
    pub(super) fn snapshot(&self) -> &Snapshot {
        &self.snapshot
    }

    /// The sheet as it was judged, to keep.
    pub(super) fn into_snapshot(self) -> Arc<Snapshot> {
        self.snapshot
    }

    /// All findings in the order of the text.
    pub(super) fn findings(&self) -> impl Iterator<Item = Located<'_>> {
        self.snapshot.findings()
    }

    /// The findings of a level and graver ones.
    pub(super) fn down_to(&self, mildest: Level) -> impl Iterator<Item = Located<'_>> {
        self.findings().filter(move |located| located.finding.level <= mildest)
    }

    /// How many exercises it has.
    pub(super) fn exercises(&self) -> usize {
        self.snapshot.exercises().count()
    }

    /// Whether something is wrong in it that no licence accepts.
    pub(super) fn has_faults(&self) -> bool {
        let is_wrong = |finding: &Finding| finding.level <= Level::Fault && finding.stands();
        self.findings().any(|located| is_wrong(located.finding))
    }
}

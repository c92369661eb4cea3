//! Analysis: from the tree of a sheet to its score, from the score to a reading, from the reading
//! to findings, kept up to date edit by edit. Nothing here fails and nothing here panics, whatever
//! the sheet says. Knows no editor and no files.

pub mod finding;
pub mod judge;
pub mod reading;
pub mod repertoire;
pub mod rulebook;
pub mod rules;
pub mod score;
pub mod sheet;
pub mod words;

pub use finding::{Acceptance, Finding, Level, Mend, Place, Related};
pub use rulebook::{Rulebook, Shelf};
pub use sheet::{Exercise, Located, Sheet, Snapshot};

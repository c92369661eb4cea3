//! From plain answers to what the protocol wants, one file for each feature.
//!
//! Nothing here decides anything about music or keeps any state.

pub(super) mod action;
pub(super) mod completion;
pub(super) mod diagnostic;
pub(super) mod edit;
pub(super) mod format;
pub(super) mod highlight;
pub(super) mod hint;
pub(super) mod hover;
pub(super) mod lens;
pub(super) mod link;
pub(super) mod name;
pub(super) mod offer;
pub(super) mod outline;
pub(super) mod report;
pub(super) mod rulebook;
pub(super) mod tokens;
pub(super) mod workspace;
pub(super) mod workspace_symbol;

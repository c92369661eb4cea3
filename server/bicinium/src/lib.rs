//! The language server as a library: what the one binary is made of.
//!
//! Everything outside [`lsp`] deals in plain data and must not know that an editor exists.

pub mod cli;
pub mod disk;
pub mod features;
pub mod folders;
pub mod library;
pub mod lsp;
pub mod recording;
pub mod schools;
mod searching;
pub mod view;
mod waiting;
pub mod workspace;

//! The bicinium notation: tokens, a lossless tree, a typed view, a formatter and block-wise
//! reparsing.
//!
//! A sheet is text, line by line; this crate says what stands where in it and what cannot be read.
//! It must not know any music: letters, accidentals, octaves, numerals and names are handed on as
//! they are written, and nothing here judges a note. The notation itself is described in
//! `REFERENCE.md` beside this crate.
//!
//! Every block of a sheet is parsed by itself, and every range in a [`BlockTree`], its problems and
//! its typed view counts from the start of that block, so that a block can be moved without being
//! touched.

pub mod ast;
mod block;
mod edit;
pub mod format;
mod lines;
mod mark;
mod numeral;
mod parser;
mod problem;
mod sheet;
mod spelling;
mod syntax;
mod token;
pub mod words;

pub use block::{BlockKind, BlockTree};
pub use edit::Redone;
pub use format::format;
pub use mark::Mark;
pub use problem::{Mend, Problem, ProblemKind};
pub use rowan::{TextRange, TextSize};
pub use sheet::SheetTree;
pub use spelling::Spelling;
pub use syntax::{Bicinium, SyntaxKind, SyntaxNode, SyntaxToken};

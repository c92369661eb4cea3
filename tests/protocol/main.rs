//! The language server as an editor meets it: the real binary over standard input and output.

mod absurd;
mod ahead;
mod breaking;
mod clients;
mod diagnostics;
mod edits;
mod holes;
mod life;
mod malformed;
mod mending;
mod names;
mod outline;
mod pages;
mod positions;
mod questions;
mod reading;
mod recordings;
mod refactorings;
mod schools;
mod settings;
mod sheets;
mod uses;
mod waiting;
mod workspace;

//! The page beside the editor: a sheet as a score that one can look at, listen to and print, served to
//! a browser on the same machine.
//!
//! file ─▶ `watch` (a new edition whenever it changes) ─▶ `content` (plain data) ─▶ `answer` ─▶ `server`.
//! `guard` sees to it that nobody else looks on. The page itself is a few static files. Nothing here
//! judges music, and nothing is written.

mod answer;
mod content;
mod guard;
mod server;
mod watch;

pub use guard::Address;
pub use server::Server;
pub use watch::{Edition, Editions};

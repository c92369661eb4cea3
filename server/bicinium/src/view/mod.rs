//! The page beside the editor: a sheet as a score that one can look at, listen to and print, served to
//! a browser on the same machine.
//!
//! Where the sheet comes from is a `source`: a line of editions and perhaps an editor. `file` makes one of
//! a file; the language server makes one of a document that is open. A request goes `server` ─▶ `guard`
//! (who is let in) ─▶ `asked` (what for) ─▶ `answer` ─▶ `content`, `ghosts`, `news` (plain data) ─▶ `reply`.
//! The page itself is a few static `files`. Nothing here judges music, and nothing is written but by the
//! editor.

mod answer;
mod asked;
mod content;
mod edition;
pub mod file;
mod files;
mod ghosts;
mod guard;
mod news;
mod places;
mod reply;
mod server;
mod source;

pub use edition::{Edition, Editions};
pub use guard::Address;
pub use server::Server;
pub use source::{Attached, Cursor, Done, Editor, Source};

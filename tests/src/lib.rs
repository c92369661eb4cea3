//! What the tests need to look at bicinium from outside: the binary itself, a client that speaks
//! the protocol with it, and an editor around that client.
//!
//! It must not use any crate of the workspace: a mistake there should not be made here too.

mod binary;
mod client;
mod editor;
mod frame;
mod parser;
pub mod sheets;
mod text;
pub mod tool;
mod vitals;
pub mod writer;

pub use binary::{bicinium, rehearsal};
pub use client::Client;
pub use editor::{Delivery, Editor, about, capabilities};
pub use parser::tree_sitter_parser;
pub use text::{Encoding, ScreenText};
pub use vitals::Vitals;

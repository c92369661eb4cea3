//! Short passages with the verdict that common practice gives, in several keys, as they stand and with
//! the voices exchanged. Each stands between blank bars, so that nothing depends on an opening or a
//! close, unless it says so.

#![allow(clippy::unwrap_used)]

mod as_given;
mod exchanged;
mod passage;

//! The grammars in `editors/` on every sheet of the repository, held against the tokens of the
//! notation itself.
//!
//! An editor's grammar only colours; it must not decide anything, so all that is asked of it is
//! that every token gets the class that belongs to it.

mod class;
mod configured;
mod held;
mod sublime;
mod textmate;
mod tree_sitter;

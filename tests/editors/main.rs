//! Real editors with the packages in `editors/`, each on the same sheet with faults.
//!
//! A script drives each editor by its own commands and tells what was seen there; what it should
//! have seen is asked from the server by the tests' own client, so nothing is written down here
//! that the server decides. It must not know how the server finds anything.

mod emacs;
mod expected;
mod feature;
mod kakoune;
mod neovim;
mod package;
mod stage;
mod story;
mod table;
mod vim;
mod vscode;

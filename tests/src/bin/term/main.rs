//! A term's hand-ins of a very large class, to measure marking with: the invented class of
//! `tests/coursework`, each time under another name and with another note changed; the one in the middle
//! is no text at all. And, as a yardstick, reading the same bytes.
//!
//! `term make FOLDER COUNT` makes a folder that is not there yet; then, inside it,
//! `bicinium mark hand-ins --against assignment.bicinium --rubric ropewalk.rubric.toml`.
//! `term read FOLDER THREADS` reads every hand-in and says how long it took.
//!
//! It must not know what is found in a sheet.

mod made;
mod reading;

use std::path::Path;

fn main() {
    let arguments: Vec<_> = std::env::args().skip(1).collect();
    let arguments: Vec<_> = arguments.iter().map(String::as_str).collect();
    match arguments.as_slice() {
        ["make", folder, count] => made::make(Path::new(folder), number(count)),
        ["read", folder, threads] => reading::read(Path::new(folder), number(threads)),
        _ => panic!("term make FOLDER COUNT, or term read FOLDER THREADS"),
    }
}

fn number(text: &str) -> usize {
    text.parse().expect("a whole number")
}

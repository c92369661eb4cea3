//! What is attempted with any input: each attempt panics if a promise is not kept. Fuzz targets make the
//! inputs by coverage; the tests of the workspace replay those that are kept, and others near them. It must not know
//! where its inputs come from.

pub mod edits;
pub mod fixes;
pub mod formatter;
pub mod import;
pub mod judge;
pub mod lexer;
pub mod lowering;
pub mod messages;
pub mod parser;
pub mod reading;
pub mod realizer;
pub mod rulebook;

/// Something that is attempted with an input.
pub type Attempt = fn(&[u8]);

/// Every attempt by its name, which is also that of its fuzz target and of the folder of its inputs.
pub const ALL: [(&str, Attempt); 12] = [
    ("edits", |bytes| on_text(bytes, edits::attempt)),
    ("fixes", |bytes| on_text(bytes, fixes::attempt)),
    ("formatter", |bytes| on_text(bytes, formatter::attempt)),
    ("import", import::attempt),
    ("judge", |bytes| on_text(bytes, judge::attempt)),
    ("lexer", |bytes| on_text(bytes, lexer::attempt)),
    ("lowering", |bytes| on_text(bytes, lowering::attempt)),
    ("messages", messages::attempt),
    ("parser", |bytes| on_text(bytes, parser::attempt)),
    ("reading", |bytes| on_text(bytes, reading::attempt)),
    ("realizer", |bytes| on_text(bytes, realizer::attempt)),
    ("rulebook", |bytes| on_text(bytes, rulebook::attempt)),
];

fn on_text(bytes: &[u8], attempt: impl Fn(&str)) {
    attempt(&String::from_utf8_lossy(bytes));
}

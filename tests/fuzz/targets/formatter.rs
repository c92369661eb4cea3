//! Formatting twice is formatting once, and its edits lead to the formatted text.
#![no_main]

use bicinium_grammar::format;

libfuzzer_sys::fuzz_target!(|text: &str| {
    let formatted = format(text);
    assert_eq!(format(&formatted), formatted);
});

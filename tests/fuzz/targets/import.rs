//! `import` of the attempts, with inputs made by coverage.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| bicinium_fuzz::import::attempt(bytes));

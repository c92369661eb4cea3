//! `lowering` of the attempts, with inputs made by coverage.
#![no_main]

libfuzzer_sys::fuzz_target!(|text: &str| bicinium_fuzz::lowering::attempt(text));

//! Every text has a tree that prints it back, and everything found in it lies inside it.
#![no_main]

use bicinium_grammar::SheetTree;

libfuzzer_sys::fuzz_target!(|text: &str| {
    let sheet = SheetTree::parse(text);
    assert_eq!(sheet.text(), text);
    for block in sheet.blocks() {
        for problem in &block.problems {
            assert!(problem.range.end() <= block.text_len());
            let _ = (&problem.message, problem.mends.len());
        }
        let _ = block.ast();
    }
});

//! Every text has a tree that prints it back, and everything found in it lies inside it.

use bicinium_grammar::SheetTree;

/// Parses a text.
pub fn attempt(text: &str) {
    let sheet = SheetTree::parse(text);
    assert_eq!(sheet.text(), text);
    for block in sheet.blocks() {
        for problem in &block.problems {
            assert!(problem.range.end() <= block.text_len());
            let _ = (&problem.message, problem.mends.len());
        }
        let _ = block.ast();
    }
}

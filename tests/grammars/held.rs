//! A grammar held against the notation.

use bicinium_grammar::{SheetTree, SyntaxKind, SyntaxToken};
use rowan::NodeOrToken;
use serde::Deserialize;

use crate::class::Class;
use bicinium_tests::sheets::Sheet;

/// A stretch of a sheet that a grammar has given a class, in bytes.
#[derive(Debug, Clone, Deserialize)]
pub struct Stretch {
    start: usize,
    end: usize,
    class: Class,
}

/// What is wrong with the stretches that a grammar finds in a sheet, one line for each token.
pub fn differences(sheet: &Sheet, stretches: &[Stretch]) -> Vec<String> {
    let mut classes = vec![None; sheet.text.len()];
    for stretch in stretches {
        classes[stretch.start..stretch.end].fill(Some(stretch.class));
    }
    let wrong = |(start, text, class): (usize, String, Class)| {
        let found = &classes[start..start + text.len()];
        let odd = found.iter().find(|found| **found != Some(class))?;
        Some(format!("{}: {text:?} at {start} is {class:?}, not {odd:?}", sheet.place))
    };
    tokens(&sheet.text).into_iter().filter_map(wrong).collect()
}

/// The tokens whose class matters, with the byte at which each starts.
fn tokens(text: &str) -> Vec<(usize, String, Class)> {
    let tree = SheetTree::parse(text);
    let mut start = 0;
    let mut tokens = Vec::new();
    for block in tree.blocks() {
        let leaves = block.syntax().descendants_with_tokens().filter_map(NodeOrToken::into_token);
        for token in leaves {
            let class = match (token.kind(), is_role(&token)) {
                (SyntaxKind::Keyword, true) => Some(Class::Role),
                (kind, _) => Class::of(kind),
            };
            tokens.extend(class.map(|class| (start, token.text().to_owned(), class)));
            start += token.text().len();
        }
    }
    assert_eq!(start, text.len(), "the tree holds all of the text");
    tokens
}

/// Whether a word stands behind the name of a voice.
fn is_role(token: &SyntaxToken) -> bool {
    let is_row = token.parent().is_some_and(|line| line.kind() == SyntaxKind::VoiceRow);
    let before = std::iter::successors(token.prev_token(), SyntaxToken::prev_token);
    let mut before = before.take_while(|it| it.kind() != SyntaxKind::Newline);
    is_row && before.any(|it| !it.kind().is_trivia())
}

//! Every character belongs to one piece of a sheet, no piece crosses the end of a line, and each is written as what it
//! is taken for.

use bicinium_grammar::{SheetTree, SyntaxKind, SyntaxToken};

/// Cuts a text into its pieces.
pub fn attempt(text: &str) {
    let sheet = SheetTree::parse(text);
    let mut rest = text;
    let mut ends = 0;
    for block in sheet.blocks() {
        let all = block.syntax().descendants_with_tokens();
        let pieces = all.filter_map(|piece| piece.as_token().cloned());
        for piece in pieces {
            rest = rest.strip_prefix(piece.text()).expect("the next piece of the text");
            ends += usize::from(piece.kind() == SyntaxKind::Newline);
            assert!(is_written_so(&piece), "{piece:?}");
        }
    }
    assert_eq!(rest, "");
    assert_eq!(ends, ends_of_lines(text));
}

fn ends_of_lines(text: &str) -> usize {
    text.matches(['\n', '\r']).count() - text.matches("\r\n").count()
}

/// Whether a piece could be taken for what it is taken for, by its characters alone.
fn is_written_so(piece: &SyntaxToken) -> bool {
    let text = piece.text();
    if piece.kind() == SyntaxKind::Newline {
        return matches!(text, "\n" | "\r\n" | "\r");
    }
    let is_of_line = !text.is_empty() && !text.contains(['\n', '\r']);
    is_of_line
        && match piece.kind() {
            SyntaxKind::Whitespace => text.chars().all(|it| it.is_whitespace() || it == '\u{feff}'),
            SyntaxKind::Comment => text.starts_with("//"),
            SyntaxKind::Barline => text == "|",
            SyntaxKind::Open => text == "(",
            SyntaxKind::Close => text == ")",
            SyntaxKind::Hold => text == "-",
            SyntaxKind::Hole => text == "?",
            SyntaxKind::Rest => text.eq_ignore_ascii_case("rest"),
            SyntaxKind::Number => text.bytes().all(|it| it.is_ascii_digit()),
            SyntaxKind::Pitch => text.starts_with(|it: char| it.is_ascii_alphabetic()),
            _ => true,
        }
}

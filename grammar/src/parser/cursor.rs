//! The parser's place in the line that it reads, and the tree that it builds. This module must not
//! know what any line means.

use rowan::{GreenNode, GreenNodeBuilder, NodeCache, TextRange, TextSize};

use crate::problem::{Problem, ProblemKind, shown};
use crate::syntax::SyntaxKind;
use crate::token::{Lexeme, Token, lexemes};

/// Reads one line after the other and builds the tree of all.
pub(super) struct Parser<'t, 'c> {
    builder: GreenNodeBuilder<'c>,
    problems: Vec<Problem>,
    line: &'t str,
    line_start: TextSize,
    lexemes: Vec<Lexeme>,
    at: usize,
}

impl<'t, 'c> Parser<'t, 'c> {
    /// A parser that takes parts of the tree from those that are known, and adds what is new.
    pub(super) fn new(known: &'c mut NodeCache) -> Self {
        Self {
            builder: GreenNodeBuilder::with_cache(known),
            problems: Vec::new(),
            line: "",
            line_start: TextSize::new(0),
            lexemes: Vec::new(),
            at: 0,
        }
    }

    /// Goes on to the line `text`, which follows the one before.
    pub(super) fn take(&mut self, text: &'t str) {
        self.line_start += TextSize::of(self.line);
        self.line = text;
        self.lexemes.clear();
        self.lexemes.extend(lexemes(text));
        self.at = 0;
    }

    /// The tree and its problems in the order of the text.
    pub(super) fn end(mut self) -> (GreenNode, Vec<Problem>) {
        self.problems.sort_by_key(|problem| problem.range.start());
        (self.builder.finish(), self.problems)
    }

    pub(super) fn start(&mut self, kind: SyntaxKind) {
        self.builder.start_node(kind.into());
    }

    pub(super) fn finish(&mut self) {
        self.builder.finish_node();
    }

    pub(super) fn report(&mut self, problem: Problem) {
        self.problems.push(problem);
    }

    /// The token that comes next, white space included.
    pub(super) fn peek(&self) -> Option<Token> {
        self.peek_at(0)
    }

    /// The token that comes after `ahead` others.
    pub(super) fn peek_at(&self, ahead: usize) -> Option<Token> {
        self.lexemes.get(self.at + ahead).map(|lexeme| lexeme.token)
    }

    /// The text of the next token.
    pub(super) fn text(&self) -> &'t str {
        self.slice(self.at, self.at + 1)
    }

    /// The range of the next token, or the empty range at the end of the line.
    pub(super) fn range(&self) -> TextRange {
        self.range_of(self.at, self.at + 1)
    }

    /// Whether nothing but white space, a comment and the end of the line follows.
    pub(super) fn at_end(&self) -> bool {
        let blank = usize::from(self.peek() == Some(Token::Blank));
        matches!(self.peek_at(blank), None | Some(Token::Newline | Token::Comment))
    }

    /// Whether the line has nothing but white space and a comment.
    pub(super) fn is_blank_line(&self) -> bool {
        self.at_end()
    }

    /// Whether a barline follows on this line.
    pub(super) fn has_barline(&self) -> bool {
        self.lexemes[self.at..].iter().any(|lexeme| lexeme.token == Token::Barline)
    }

    /// The characters that belong together after white space.
    pub(super) fn first_run(&self) -> &'t str {
        let blank = usize::from(self.peek() == Some(Token::Blank));
        self.slice(self.at + blank, self.run_end(self.at + blank))
    }

    /// Takes the next token into the tree.
    pub(super) fn bump(&mut self, kind: SyntaxKind) -> TextRange {
        self.bump_to(self.at + 1, kind)
    }

    /// Takes the characters that belong together from here on into the tree as one token.
    pub(super) fn bump_run(&mut self, kind: SyntaxKind) -> TextRange {
        self.bump_to(self.run_end(self.at), kind)
    }

    /// Takes the next `count` tokens into the tree as one.
    pub(super) fn bump_many(&mut self, count: usize, kind: SyntaxKind) -> TextRange {
        self.bump_to(self.at + count, kind)
    }

    /// Takes the next token into the tree in two parts, the first one `length` bytes long.
    pub(super) fn bump_split(
        &mut self,
        length: usize,
        kinds: (SyntaxKind, SyntaxKind),
    ) -> (TextRange, TextRange) {
        let (head, tail) = self.text().split_at(length);
        let whole = self.range();
        let middle = whole.start() + TextSize::of(head);
        self.builder.token(kinds.0.into(), head);
        self.builder.token(kinds.1.into(), tail);
        self.at += 1;
        (TextRange::new(whole.start(), middle), TextRange::new(middle, whole.end()))
    }

    /// Takes white space into the tree.
    pub(super) fn skip_blanks(&mut self) {
        if self.peek() == Some(Token::Blank) {
            self.bump(SyntaxKind::Whitespace);
        }
    }

    /// The characters from here to the last one before white space, a comment or the line's end.
    pub(super) fn rest(&self) -> (&'t str, TextRange) {
        let end = self.content_end();
        (self.slice(self.at, end), self.range_of(self.at, end))
    }

    /// Takes all that [`rest`](Self::rest) sees into the tree as one token.
    pub(super) fn bump_rest(&mut self, kind: SyntaxKind) -> TextRange {
        self.bump_to(self.content_end(), kind)
    }

    /// Reports what is left on the line, and ends the line's node.
    pub(super) fn finish_line(&mut self) {
        self.skip_blanks();
        if !self.at_end() {
            let (text, _) = self.rest();
            let range = self.bump_rest(SyntaxKind::Stray);
            let message = format!("The line was expected to end before {}.", shown(text));
            self.report(Problem::new(ProblemKind::StrayText, range, message).remove(text));
        }
        while let Some(token) = self.peek() {
            self.bump(trivia(token));
        }
        self.finish();
    }

    fn bump_to(&mut self, end: usize, kind: SyntaxKind) -> TextRange {
        let range = self.range_of(self.at, end);
        self.builder.token(kind.into(), self.slice(self.at, end));
        self.at = end.min(self.lexemes.len());
        range
    }

    fn run_end(&self, start: usize) -> usize {
        let run = self.lexemes.iter().skip(start).take_while(|lexeme| lexeme.token.joins());
        start + run.count()
    }

    fn content_end(&self) -> usize {
        let blank = |lexeme: &Lexeme| {
            matches!(lexeme.token, Token::Blank | Token::Newline | Token::Comment)
        };
        self.lexemes.iter().rposition(|lexeme| !blank(lexeme)).map_or(self.at, |last| last + 1)
    }

    fn slice(&self, start: usize, end: usize) -> &'t str {
        let (start, end) = self.bytes(start, end);
        &self.line[start..end]
    }

    fn range_of(&self, start: usize, end: usize) -> TextRange {
        let (start, end) = self.bytes(start, end);
        let length = TextSize::of(&self.line[start..end]);
        TextRange::at(self.line_start + TextSize::of(&self.line[..start]), length)
    }

    /// The bytes of the line that the tokens `start` to `end` take.
    fn bytes(&self, start: usize, end: usize) -> (usize, usize) {
        let byte = |index: usize| {
            self.lexemes.get(index).map_or(self.line.len(), |lexeme| lexeme.range.start)
        };
        (byte(start), byte(end.max(start)))
    }
}

fn trivia(token: Token) -> SyntaxKind {
    match token {
        Token::Blank => SyntaxKind::Whitespace,
        Token::Comment => SyntaxKind::Comment,
        Token::Newline => SyntaxKind::Newline,
        _ => SyntaxKind::Stray,
    }
}

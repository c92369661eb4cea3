//! What the lexer has of the cost of parsing, and how near it comes to what its generator can do at best: notes and
//! barlines told apart and nothing else. Good for ratios within one run.

#![allow(missing_docs, dead_code)]

#[path = "../../tests/texts/mod.rs"]
mod texts;
#[path = "../src/token.rs"]
mod token;

use std::hint::black_box;

use bicinium_grammar::SheetTree;
use divan::Bencher;
use divan::counter::BytesCount;
use logos::Logos;

fn main() {
    divan::main();
}

/// As little as can be told apart.
#[derive(Logos, Clone, Copy)]
enum Bare {
    #[regex(r"[ \n]+")]
    Blank,
    #[token("|")]
    Barline,
    #[regex(r"[A-G]#?[0-9]")]
    Note,
    #[regex(r#"[a-z0-9"]+"#)]
    Word,
}

fn with_text<T>(bencher: Bencher, work: impl Fn(&str) -> T + Sync) {
    let text = texts::exercise("modal", 1_000);
    bencher.counter(BytesCount::of_str(&text)).bench(|| work(black_box(&text)));
}

#[divan::bench]
fn bare_tokens(bencher: Bencher) {
    with_text(bencher, |text| Bare::lexer(text).count());
}

#[divan::bench]
fn tokens(bencher: Bencher) {
    with_text(bencher, |text| {
        text.split_inclusive('\n').map(|line| token::lexemes(line).count()).sum::<usize>()
    });
}

#[divan::bench]
fn parsing(bencher: Bencher) {
    with_text(bencher, SheetTree::parse);
}

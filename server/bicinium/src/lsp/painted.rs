//! The semantic tokens of a document, block by block, and how they differ from those that the client has
//! already. Blocks that are the same are told by their being the very same thing, so that an edit
//! costs what it touches.
//!
//! It must not know what any token means.

use std::collections::HashMap;
use std::ops::RangeInclusive;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

use tower_lsp::lsp_types::{
    Position, SemanticToken, SemanticTokens, SemanticTokensDelta, SemanticTokensEdit,
    SemanticTokensFullDeltaResult, Url,
};

use super::blocks::Made;

/// How many numbers there are for a token.
const NUMBERS: usize = 5;

/// The tokens of a block; the place of the first is counted from the block's start.
pub(super) struct Colours {
    tokens: Vec<SemanticToken>,
    /// The line of the last one, counted from that of the block.
    last_line: u32,
}

impl Colours {
    /// From tokens in the order of the text, each with its place (lines counted from the block's
    /// start), its length, its kind and its modifiers.
    pub(super) fn new(placed: impl Iterator<Item = (Position, u32, u32, u32)>) -> Self {
        let mut before = Position::default();
        let tokens = placed.map(|(at, length, token_type, token_modifiers_bitset)| {
            let delta_line = at.line - before.line;
            let from = if delta_line == 0 { before.character } else { 0 };
            before = at;
            let delta_start = at.character - from;
            SemanticToken { delta_line, delta_start, length, token_type, token_modifiers_bitset }
        });
        Colours { tokens: tokens.collect(), last_line: before.line }
    }
}

/// The tokens of a document.
#[derive(Default, Clone)]
pub(super) struct Painted {
    parts: Vec<Part>,
    /// The line of the last token.
    last_line: u32,
}

/// A block with tokens, and how many lines after the token before it begins.
#[derive(Clone)]
struct Part {
    after: u32,
    block: Arc<Made<(), Colours>>,
}

impl Part {
    fn is_same(&self, other: &Self) -> bool {
        self.after == other.after && Arc::ptr_eq(&self.block, &other.block)
    }

    fn tokens(&self) -> impl Iterator<Item = SemanticToken> + '_ {
        let mut after = Some(self.after);
        self.block.tokens.iter().map(move |token| SemanticToken {
            delta_line: token.delta_line + after.take().unwrap_or(0),
            ..*token
        })
    }
}

impl Painted {
    /// Adds the block that begins at a line, below all that have been added.
    pub(super) fn push(&mut self, line: u32, block: Arc<Made<(), Colours>>) {
        if !block.tokens.is_empty() {
            let after = line - self.last_line;
            self.last_line = line + block.last_line;
            self.parts.push(Part { after, block });
        }
    }

    /// Those on some lines.
    pub(super) fn on_lines(&self, lines: &RangeInclusive<u32>) -> SemanticTokens {
        let (mut line, mut start, mut last) = (0, 0, Position::default());
        let mut data = Vec::new();
        for token in tokens(&self.parts) {
            if token.delta_line > 0 {
                (line, start) = (line + token.delta_line, 0);
            }
            start += token.delta_start;
            if lines.contains(&line) {
                let delta_line = line - last.line;
                let from = if delta_line == 0 { last.character } else { 0 };
                last = Position::new(line, start);
                data.push(SemanticToken { delta_line, delta_start: start - from, ..token });
            }
        }
        SemanticTokens { result_id: None, data }
    }

    fn whole(&self, id: String) -> SemanticTokens {
        SemanticTokens { result_id: Some(id), data: tokens(&self.parts).collect() }
    }

    /// What has to be changed in the tokens of `old`.
    fn since(&self, old: &Self) -> Vec<SemanticTokensEdit> {
        let head = common(old.parts.iter().zip(&self.parts), |(old, new)| old.is_same(new));
        let (gone, come) = (&old.parts[head..], &self.parts[head..]);
        let pairs = gone.iter().rev().zip(come.iter().rev());
        let tail = common(pairs, |(old, new)| old.is_same(new));
        let before = self.parts[..head].iter().map(|part| part.block.tokens.len()).sum();
        let gone: Vec<_> = tokens(&gone[..gone.len() - tail]).collect();
        let come: Vec<_> = tokens(&come[..come.len() - tail]).collect();
        edit(before, &gone, &come).into_iter().collect()
    }
}

fn tokens(parts: &[Part]) -> impl Iterator<Item = SemanticToken> + '_ {
    parts.iter().flat_map(Part::tokens)
}

/// The edit that makes one stretch of tokens of another, no longer than what differs.
fn edit(
    before: usize,
    gone: &[SemanticToken],
    come: &[SemanticToken],
) -> Option<SemanticTokensEdit> {
    let head = common(gone.iter().zip(come), |(old, new)| old == new);
    let (gone, come) = (&gone[head..], &come[head..]);
    let tail = common(gone.iter().rev().zip(come.iter().rev()), |(old, new)| old == new);
    let (gone, come) = (&gone[..gone.len() - tail], &come[..come.len() - tail]);
    let number = |tokens: usize| u32::try_from(tokens * NUMBERS).unwrap_or(u32::MAX);
    (!gone.is_empty() || !come.is_empty()).then(|| SemanticTokensEdit {
        start: number(before + head),
        delete_count: number(gone.len()),
        data: Some(come.to_vec()),
    })
}

/// How many are the same at the beginning.
fn common<T>(pairs: impl Iterator<Item = T>, is_same: impl Fn(T) -> bool) -> usize {
    pairs.map(is_same).take_while(|is_same| *is_same).count()
}

/// What the client has of each document, under the name of the last answer. Copies are the same.
#[derive(Clone, Default)]
pub(super) struct Sent {
    last: Arc<Mutex<HashMap<Url, (String, Painted)>>>,
    count: Arc<AtomicU64>,
}

impl Sent {
    /// All tokens of a document.
    pub(super) fn whole(&self, uri: &Url, painted: Painted) -> SemanticTokens {
        let id = self.name();
        let whole = painted.whole(id.clone());
        self.keep(uri, id, painted);
        whole
    }

    /// What has changed since an answer, or all if it is not the last one.
    pub(super) fn since(
        &self,
        uri: &Url,
        previous: &str,
        painted: Painted,
    ) -> SemanticTokensFullDeltaResult {
        let known = self.last.lock().unwrap_or_else(PoisonError::into_inner).get(uri).cloned();
        let Some((_, old)) = known.filter(|(id, _)| id == previous) else {
            return self.whole(uri, painted).into();
        };
        let (id, edits) = (self.name(), painted.since(&old));
        self.keep(uri, id.clone(), painted);
        SemanticTokensDelta { result_id: Some(id), edits }.into()
    }

    /// Forgets a document that was closed.
    pub(super) fn forget(&self, uri: &Url) {
        self.last.lock().unwrap_or_else(PoisonError::into_inner).remove(uri);
    }

    fn keep(&self, uri: &Url, id: String, painted: Painted) {
        let mut last = self.last.lock().unwrap_or_else(PoisonError::into_inner);
        last.insert(uri.clone(), (id, painted));
    }

    fn name(&self) -> String {
        self.count.fetch_add(1, Ordering::Relaxed).to_string()
    }
}

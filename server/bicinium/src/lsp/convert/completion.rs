//! What may be written at a place, as completions: what a hole or a blank bar may become, and words.
//!
//! It must not know how the pitches are found or which words there are.

use std::sync::atomic::AtomicBool;

use bicinium_realizer::Extent;
use tower_lsp::lsp_types as lsp;

use super::hover::documentation;
use crate::features::completion::{Near, Word, WordKind, Words, in_rulebook, words};
use crate::features::realizing::{Choice, choices};
use crate::lsp::client::ClientProfile;
use crate::lsp::document::Judged;
use crate::lsp::text::Text;

/// The sign for which choices are asked. After all others only words are: choices for a blank bar are
/// not thrown at whoever types one.
const HOLE: &str = "?";

/// The signs after which a client asks without being asked: choices come at a hole as soon as it is
/// written, words behind the word that they follow, paths where they begin and folder by folder.
pub(super) fn triggers() -> Vec<String> {
    [HOLE, " ", "\"", "/"].map(str::to_owned).into()
}

/// The completions at a place of a sheet that may name what lies near; nothing where there are none.
pub(in crate::lsp) fn completion(
    judged: &Judged,
    asked: &lsp::CompletionParams,
    near: &Near<'_>,
    client: &ClientProfile,
    given_up: &AtomicBool,
) -> Option<lsp::CompletionResponse> {
    let at = asked.text_document_position.position;
    let offset = judged.text.bytes(lsp::Range::new(at, at), client.encoding).start;
    let typed = asked.context.as_ref().and_then(|context| context.trigger_character.as_deref());
    let open = (typed.is_none() || typed == Some(HOLE))
        .then(|| pitches(judged, offset, client, given_up))
        .flatten();
    open.or_else(|| {
        let found = words(&judged.snapshot, offset, near)?;
        Some(list_of_words(&judged.text, found, client))
    })
}

/// The completions at a place of a rulebook.
pub(in crate::lsp) fn completion_in_rulebook(
    text: &Text,
    at: lsp::Position,
    client: &ClientProfile,
) -> Option<lsp::CompletionResponse> {
    let offset = text.offset(at, client.encoding);
    let found = in_rulebook(&text.to_string(), offset)?;
    Some(list_of_words(text, found, client))
}

fn pitches(
    judged: &Judged,
    offset: usize,
    client: &ClientProfile,
    given_up: &AtomicBool,
) -> Option<lsp::CompletionResponse> {
    let found = choices(&judged.snapshot, offset, given_up)?;
    let range = judged.text.range(found.range.clone(), client.encoding);
    let items = found.choices.iter().enumerate();
    let items = items.map(|(rank, choice)| item(rank, choice, range)).collect();
    let is_incomplete = found.extent == Extent::AtLeast;
    Some(lsp::CompletionResponse::List(lsp::CompletionList { is_incomplete, items }))
}

fn item(rank: usize, choice: &Choice, range: lsp::Range) -> lsp::CompletionItem {
    lsp::CompletionItem {
        label: choice.pitch.clone(),
        kind: Some(lsp::CompletionItemKind::VALUE),
        detail: Some(choice.detail.clone()),
        sort_text: Some(format!("{rank:03}")),
        filter_text: is_hole(range).then(|| "?".to_owned()),
        preselect: (rank == 0).then_some(true),
        text_edit: Some(lsp::TextEdit::new(range, choice.text.clone()).into()),
        ..lsp::CompletionItem::default()
    }
}

/// Whether something stands there that is replaced.
fn is_hole(range: lsp::Range) -> bool {
    range.start != range.end
}

fn list_of_words(text: &Text, found: Words, client: &ClientProfile) -> lsp::CompletionResponse {
    let range = text.range(found.range, client.encoding);
    let items = found.words.into_iter().enumerate();
    let items = items.map(|(rank, it)| word(rank, it, range, client)).collect();
    lsp::CompletionResponse::List(lsp::CompletionList { is_incomplete: false, items })
}

fn word(rank: usize, word: Word, range: lsp::Range, client: &ClientProfile) -> lsp::CompletionItem {
    lsp::CompletionItem {
        kind: Some(kind(word.kind)),
        detail: word.detail,
        documentation: documentation(&word.docs, client.documentation),
        sort_text: Some(format!("{rank:03}")),
        text_edit: Some(lsp::TextEdit::new(range, word.text.clone()).into()),
        label: word.text,
        ..lsp::CompletionItem::default()
    }
}

fn kind(kind: WordKind) -> lsp::CompletionItemKind {
    match kind {
        WordKind::Notation => lsp::CompletionItemKind::KEYWORD,
        WordKind::Voice => lsp::CompletionItemKind::CLASS,
        WordKind::Value => lsp::CompletionItemKind::VALUE,
        WordKind::Cantus => lsp::CompletionItemKind::FUNCTION,
        WordKind::Rule => lsp::CompletionItemKind::PROPERTY,
        WordKind::Rulebook => lsp::CompletionItemKind::MODULE,
        WordKind::Sheet => lsp::CompletionItemKind::FILE,
        WordKind::Folder => lsp::CompletionItemKind::FOLDER,
    }
}

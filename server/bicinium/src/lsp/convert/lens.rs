//! What stands above the exercises, as code lenses: one that only says something, and one that is made
//! when it is seen, for it takes its time, and that fills the exercise.
//!
//! It must not know what they say.

use std::sync::atomic::AtomicBool;

use bicinium_analysis::sheet::Placed;
use serde_json::{Value, json};
use tower_lsp::lsp_types as lsp;

use crate::features::lenses::prospect::outlook;
use crate::features::lenses::{Lens, More, lens};
use crate::lsp::blocks::Block;
use crate::lsp::client::ClientProfile;
use crate::lsp::commands::FILL;
use crate::lsp::document::Judged;
use crate::lsp::text::Encoding;

/// The lenses of a document, in the order of its text.
pub(in crate::lsp) fn code_lenses(
    judged: &Judged,
    uri: &lsp::Url,
    client: &ClientProfile,
) -> Vec<lsp::CodeLens> {
    let of_one = |(number, placed, _): (usize, &Placed, _)| {
        let block = judged.block(placed);
        block.list(&number, || {
            let lens = lens(&placed.judged).into_iter();
            lens.flat_map(|lens| of_lens(lens, (uri, number), block, client.encoding)).collect()
        })
    };
    judged.snapshot.exercises().flat_map(of_one).collect()
}

fn of_lens(
    lens: Lens,
    (uri, number): (&lsp::Url, usize),
    block: Block<'_>,
    encoding: Encoding,
) -> impl Iterator<Item = lsp::CodeLens> + use<> {
    let range = block.range(lens.range, encoding);
    let said = lsp::CodeLens { range, command: Some(saying(lens.title)), data: None };
    let data = (lens.more == More::Outlook).then(|| json!({"uri": uri, "exercise": number}));
    let more = data.map(|data| lsp::CodeLens { range, command: None, data: Some(data) });
    [said].into_iter().chain(more)
}

/// The sheet and the number of the exercise that a lens is about.
pub(in crate::lsp) fn subject(lens: &lsp::CodeLens) -> Option<(lsp::Url, usize)> {
    let data = lens.data.as_ref()?;
    let uri = data.get("uri").and_then(Value::as_str)?;
    let number = usize::try_from(data.get("exercise").and_then(Value::as_u64)?).ok()?;
    Some((lsp::Url::parse(uri).ok()?, number))
}

/// A lens with what it says.
pub(in crate::lsp) fn resolved(
    judged: &Judged,
    lens: lsp::CodeLens,
    (uri, number): (&lsp::Url, usize),
    given_up: &AtomicBool,
) -> lsp::CodeLens {
    let command = match outlook(&judged.snapshot, number, given_up) {
        Some(outlook) if outlook.can_be_filled => {
            let arguments = Some(vec![json!(uri), json!(number)]);
            lsp::Command::new(outlook.title, FILL.to_owned(), arguments)
        }
        Some(outlook) => saying(outlook.title),
        None => saying(String::new()),
    };
    lsp::CodeLens { command: Some(command), ..lens }
}

/// A command without a name does nothing; its title is what is shown.
fn saying(title: String) -> lsp::Command {
    lsp::Command::new(title, String::new(), None)
}

//! What stands above the exercises, as code lenses: one that only says something, and one that is made
//! when it is seen, for it takes its time, and that fills the exercise.
//!
//! It must not know what they say.

use std::sync::atomic::AtomicBool;

use serde_json::{Value, json};
use tower_lsp::lsp_types as lsp;

use crate::features::lenses::prospect::outlook;
use crate::features::lenses::{Lens, lenses};
use crate::lsp::client::ClientProfile;
use crate::lsp::commands::FILL;
use crate::lsp::document::Judged;

/// The lenses of a document, in the order of its text.
pub(in crate::lsp) fn code_lenses(
    judged: &Judged,
    uri: &lsp::Url,
    client: &ClientProfile,
) -> Vec<lsp::CodeLens> {
    let of_one = |lens: Lens| {
        let range = judged.text.range(lens.range, client.encoding);
        let said = lsp::CodeLens { range, command: Some(saying(lens.title)), data: None };
        let open = lens.open.map(|number| {
            let data = Some(json!({"uri": uri, "exercise": number}));
            lsp::CodeLens { range, command: None, data }
        });
        [said].into_iter().chain(open)
    };
    lenses(&judged.snapshot).into_iter().flat_map(of_one).collect()
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

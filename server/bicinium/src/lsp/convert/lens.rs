//! What stands above the exercises, as code lenses that only say something.
//!
//! It must not know what they say.

use tower_lsp::lsp_types as lsp;

use crate::features::lenses::{Lens, lenses};
use crate::lsp::client::ClientProfile;
use crate::lsp::document::Judged;

/// The lenses of a document, in the order of its text.
pub(in crate::lsp) fn code_lenses(judged: &Judged, client: &ClientProfile) -> Vec<lsp::CodeLens> {
    let lens = |lens: Lens| lsp::CodeLens {
        range: judged.text.range(lens.range, client.encoding),
        // Without a name the command does nothing; the title is what is shown.
        command: Some(lsp::Command::new(lens.title, String::new(), None)),
        data: None,
    };
    lenses(&judged.snapshot).into_iter().map(lens).collect()
}

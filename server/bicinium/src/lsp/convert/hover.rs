//! What is said about a place, in the form that the client shows.
//!
//! It must not know what is said.

use tower_lsp::lsp_types as lsp;

use crate::features::hover;
use crate::features::melody::Melody;
use crate::features::names::Name;
use crate::features::section::{Section, markdown, plain};
use crate::lsp::client::{ClientProfile, Markup};
use crate::lsp::document::Judged;
use crate::lsp::names;
use crate::lsp::sheets::{Sheets, Written};

/// What there is to say about a position.
pub(in crate::lsp) fn hover(
    judged: &Judged,
    position: lsp::Position,
    client: &ClientProfile,
) -> Option<lsp::Hover> {
    let offset = judged.text.offset(position, client.encoding);
    let said = hover::hover(&judged.snapshot, offset)?;
    let range = judged.text.range(said.range, client.encoding);
    Some(lsp::Hover { contents: contents(&said.body, client.markup), range: Some(range) })
}

/// What there is to say about the cantus whose name stands at a position; `None` if no name does, or if
/// it is that of none.
pub(in crate::lsp) fn cantus(
    sheets: &Sheets,
    sheet: &Written,
    position: lsp::Position,
    client: &ClientProfile,
) -> Option<lsp::Hover> {
    let named = names::named(sheet, sheet.text.offset(position, client.encoding))?;
    let Name::Cantus(name, _) = &named.name else { return None };
    let of_sheet = |lender: &Written| {
        let source = if lender.uri == sheet.uri {
            "defined in this sheet".to_owned()
        } else {
            format!("defined in {}", file_name(&lender.uri))
        };
        Melody::of_sheet(lender.tree(), name, source)
    };
    let defined = names::defined(sheets, sheet, &named);
    let melody = match &defined {
        Some(places) => of_sheet(&places.sheet),
        None => Melody::of_repertoire(name),
    };
    let range = sheet.text.range(named.range, client.encoding);
    Some(lsp::Hover { contents: contents(&melody?.say(name), client.markup), range: Some(range) })
}

fn file_name(uri: &lsp::Url) -> String {
    let path = uri.to_file_path().unwrap_or_default();
    path.file_name().unwrap_or_default().to_string_lossy().into_owned()
}

/// What is said about something beside its name; `None` if nothing is.
pub(super) fn documentation(body: &[Section], markup: Markup) -> Option<lsp::Documentation> {
    (!body.is_empty()).then(|| lsp::Documentation::MarkupContent(content(body, markup)))
}

fn contents(body: &[Section], markup: Markup) -> lsp::HoverContents {
    lsp::HoverContents::Markup(content(body, markup))
}

fn content(body: &[Section], markup: Markup) -> lsp::MarkupContent {
    let (kind, value) = match markup {
        Markup::Markdown => (lsp::MarkupKind::Markdown, markdown(body)),
        Markup::Plain => (lsp::MarkupKind::PlainText, plain(body)),
    };
    lsp::MarkupContent { kind, value }
}

#[cfg(test)]
mod tests {
    use super::{Markup, Section, contents};
    use tower_lsp::lsp_types::{HoverContents, MarkupKind};

    #[test]
    fn the_form_is_the_one_that_is_shown() {
        let body = [Section::Heading("rest".to_owned())];
        for (markup, kind, text) in [
            (Markup::Markdown, MarkupKind::Markdown, "**rest**"),
            (Markup::Plain, MarkupKind::PlainText, "rest"),
        ] {
            let HoverContents::Markup(content) = contents(&body, markup) else {
                panic!("markup was expected")
            };
            assert_eq!((content.kind, content.value.as_str()), (kind, text));
        }
    }
}

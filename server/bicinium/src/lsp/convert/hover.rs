//! What is said about a place, in the form that the client shows.
//!
//! It must not know what is said.

use tower_lsp::lsp_types as lsp;

use crate::features::hover::{self, Section};
use crate::lsp::client::{ClientProfile, Markup};
use crate::lsp::document::Judged;

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

fn contents(body: &[Section], markup: Markup) -> lsp::HoverContents {
    let (kind, render): (_, fn(&Section) -> String) = match markup {
        Markup::Markdown => (lsp::MarkupKind::Markdown, markdown),
        Markup::Plain => (lsp::MarkupKind::PlainText, plain),
    };
    let value = body.iter().map(render).collect::<Vec<_>>().join("\n\n");
    lsp::HoverContents::Markup(lsp::MarkupContent { kind, value })
}

fn markdown(section: &Section) -> String {
    match section {
        Section::Heading(text) => format!("**{}**", escaped(text)),
        Section::Fact(label, text) => format!("*{label}:* {}", escaped(text)),
        Section::Text(text) => escaped(text),
        Section::Sheet(text) => format!("```bicinium\n{}\n```", text.trim_end()),
    }
}

fn plain(section: &Section) -> String {
    match section {
        Section::Heading(text) | Section::Text(text) => text.clone(),
        Section::Fact(label, text) => format!("{label}: {text}"),
        Section::Sheet(text) => text.trim_end().to_owned(),
    }
}

/// Text in which nothing is taken for markup but the backquotes, which mean the same here.
fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for character in text.chars() {
        if matches!(character, '\\' | '*' | '_' | '[' | ']' | '<') {
            escaped.push('\\');
        }
        escaped.push(character);
    }
    escaped
}

#[cfg(test)]
mod tests {
    use super::{Markup, Section, contents};
    use tower_lsp::lsp_types::{HoverContents, MarkupKind};

    fn shown(markup: Markup) -> (MarkupKind, String) {
        let body = [
            Section::Heading("F#3 in bar 2".to_owned()),
            Section::Fact("harmony", "V (D F# A) *".to_owned()),
            Section::Text("See `direct-fifths`.".to_owned()),
            Section::Sheet("exercise\n  bass | F#3 |\n".to_owned()),
        ];
        match contents(&body, markup) {
            HoverContents::Markup(content) => (content.kind, content.value),
            other => panic!("markup was expected, not {other:?}"),
        }
    }

    #[test]
    fn markdown_where_it_is_shown() {
        let text = "**F#3 in bar 2**\n\n*harmony:* V (D F# A) \\*\n\nSee `direct-fifths`.\n\n\
                    ```bicinium\nexercise\n  bass | F#3 |\n```";
        assert_eq!(shown(Markup::Markdown), (MarkupKind::Markdown, text.to_owned()));
    }

    #[test]
    fn plain_text_elsewhere() {
        let text = "F#3 in bar 2\n\nharmony: V (D F# A) *\n\nSee `direct-fifths`.\n\n\
                    exercise\n  bass | F#3 |";
        assert_eq!(shown(Markup::Plain), (MarkupKind::PlainText, text.to_owned()));
    }
}

//! Text in parts, and the forms in which it can be written. It must not know what is said.

/// A part of what is said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Section {
    /// What it is about.
    Heading(String),
    /// A fact, with its label.
    Fact(&'static str, String),
    /// A paragraph.
    Text(String),
    /// Short texts, one below the other.
    List(Vec<String>),
    /// A sheet, given as an example.
    Sheet(String),
}

/// Everything as Markdown.
pub fn markdown(body: &[Section]) -> String {
    joined(body, |section| match section {
        Section::Heading(text) => format!("**{}**", escaped(text)),
        Section::Fact(label, text) => format!("- *{label}:* {}", escaped(text)),
        Section::Text(text) => escaped(text),
        Section::List(items) => list(items, escaped),
        Section::Sheet(text) => format!("```bicinium\n{}\n```", text.trim_end()),
    })
}

/// Everything as text that is shown as it is.
pub fn plain(body: &[Section]) -> String {
    joined(body, |section| match section {
        Section::Heading(text) | Section::Text(text) => text.clone(),
        Section::Fact(label, text) => format!("{label}: {text}"),
        Section::List(items) => list(items, str::to_owned),
        Section::Sheet(text) => text.trim_end().to_owned(),
    })
}

/// Parts of their own, but for facts: those stand line under line.
fn joined(body: &[Section], render: impl Fn(&Section) -> String) -> String {
    let mut text = String::new();
    for (index, section) in body.iter().enumerate() {
        let before = index.checked_sub(1).and_then(|before| body.get(before));
        text.push_str(match (before, section) {
            (None, _) => "",
            (Some(Section::Fact(..)), Section::Fact(..)) => "\n",
            (Some(_), _) => "\n\n",
        });
        text.push_str(&render(section));
    }
    text
}

fn list(items: &[String], write: impl Fn(&str) -> String) -> String {
    items.iter().map(|item| format!("- {}", write(item))).collect::<Vec<_>>().join("\n")
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
    use super::{Section, markdown, plain};

    fn body() -> [Section; 6] {
        [
            Section::Heading("F#3 in bar 2".to_owned()),
            Section::Fact("harmony", "V (D F# A) *".to_owned()),
            Section::Fact("function", "the third".to_owned()),
            Section::Text("See `direct-fifths`.".to_owned()),
            Section::List(vec!["one".to_owned(), "two_".to_owned()]),
            Section::Sheet("exercise\n  bass | F#3 |\n".to_owned()),
        ]
    }

    #[test]
    fn markdown_where_it_is_shown() {
        let text = "**F#3 in bar 2**\n\n- *harmony:* V (D F# A) \\*\n- *function:* the third\n\n\
                    See `direct-fifths`.\n\n\
                    - one\n- two\\_\n\n```bicinium\nexercise\n  bass | F#3 |\n```";
        assert_eq!(markdown(&body()), text);
    }

    #[test]
    fn plain_text_elsewhere() {
        let text = "F#3 in bar 2\n\nharmony: V (D F# A) *\nfunction: the third\n\n\
                    See `direct-fifths`.\n\n\
                    - one\n- two_\n\nexercise\n  bass | F#3 |";
        assert_eq!(plain(&body()), text);
    }
}

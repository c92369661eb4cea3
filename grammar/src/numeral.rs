//! The shape of a Roman numeral with figures as text. This module must not know what harmony a
//! numeral stands for, nor whether there is one.

const DEGREES: [&str; 7] = ["I", "II", "III", "IV", "V", "VI", "VII"];

/// The parts of a numeral, as written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Parts<'t> {
    /// `I` to `VII` in upper or lower case.
    pub(crate) degree: &'t str,
    /// The sign of the quality, or nothing.
    pub(crate) quality: &'t str,
    /// Figures with strokes between them, or nothing.
    pub(crate) figures: &'t str,
}

/// Takes a numeral apart; `None` if the text is none.
pub(crate) fn parts(text: &str) -> Option<Parts<'_>> {
    let (degree, rest) = text.split_at(text.len() - after_degree(text).len());
    let figures = rest.trim_start_matches(['°', 'ø', 'o', '+']);
    let quality = &rest[..rest.len() - figures.len()];
    let readable = is_degree(degree) && quality.chars().count() <= 1 && are_figures(figures);
    readable.then_some(Parts { degree, quality, figures })
}

/// The numeral in the one form in which it is printed.
pub(crate) fn normal(text: &str) -> String {
    parts(text).map_or_else(
        || text.to_owned(),
        |Parts { degree, quality, figures }| {
            format!("{degree}{}{figures}", quality.replace('o', "°"))
        },
    )
}

/// Numerals that the writer of an unreadable text may have meant, the likeliest first.
pub(crate) fn meant(text: &str) -> Vec<String> {
    let text = text.replace(['º', '˚', '⁰', '0'], "°").replace('Ø', "ø");
    let rest = after_degree(&text);
    let degree = &text[..text.len() - rest.len()];
    let figures = rest.trim_start_matches(['°', 'ø', 'o', '+']);
    let quality = &rest[..rest.len() - figures.len()];
    let Some(figures) = with_strokes(figures) else { return Vec::new() };
    cases(degree)
        .into_iter()
        .map(|degree| format!("{degree}{quality}{figures}"))
        .filter(|candidate| parts(candidate).is_some())
        .collect()
}

fn after_degree(text: &str) -> &str {
    text.trim_start_matches(['I', 'V', 'i', 'v'])
}

fn is_degree(text: &str) -> bool {
    DEGREES.iter().any(|degree| *degree == text || degree.to_lowercase() == text)
}

fn are_figures(text: &str) -> bool {
    text.is_empty()
        || (text.split('/').count() <= 3
            && text.split('/').all(|figure| matches!(figure.as_bytes(), [b'2'..=b'9'])))
}

fn cases(degree: &str) -> Vec<String> {
    if is_degree(degree) {
        return vec![degree.to_owned()];
    }
    vec![degree.to_uppercase(), degree.to_lowercase()]
}

/// The figures of a text with strokes between them; `None` if there is something else among them.
fn with_strokes(text: &str) -> Option<String> {
    let figures = text.replace(['/', ',', '.'], "");
    let digits: Vec<_> = figures.chars().map(String::from).collect();
    figures.bytes().all(|byte| byte.is_ascii_digit()).then(|| digits.join("/"))
}

//! How words that can be written are listed, and which of them is probably meant. Knows no
//! rulebook and no rule.

/// A word counts as misspelt if it is as like another one as this, of 1.
const LIKE: f64 = 0.8;

/// The word that is most like a misspelt one, if any is much like it.
pub fn nearest<'w>(misspelt: &str, words: impl IntoIterator<Item = &'w str>) -> Option<&'w str> {
    let likeness = |word: &&str| strsim::jaro_winkler(word, misspelt);
    let most_like = words.into_iter().max_by(|a, b| likeness(a).total_cmp(&likeness(b)));
    most_like.filter(|word| likeness(word) > LIKE)
}

/// "`a`", "`a` and `b`", "`a`, `b` and `c`".
pub fn quoted(words: &[&str], last: &str) -> String {
    let words: Vec<_> = words.iter().map(|word| format!("`{word}`")).collect();
    joined(&words, last)
}

/// "a", "a and b", "a, b and c".
pub fn joined(words: &[String], last: &str) -> String {
    match words.split_last() {
        Some((end, [])) => end.clone(),
        Some((end, others)) => format!("{} {last} {end}", others.join(", ")),
        None => String::new(),
    }
}

//! What stands on a line before a place: whole words, and the one that is being written. It must not know
//! what any word means.

use std::ops::Range;

/// What stands before a place.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Before {
    /// The words that are complete, in lower case.
    pub(super) words: Vec<String>,
    /// The word that is being written, from its first letter to its last, in bytes of the text.
    pub(super) range: Range<usize>,
}

impl Before {
    /// What stands before a byte of a text; `None` in comments, in text between quotation marks and
    /// behind a barline, where no words are looked for.
    pub(super) fn of(text: &str, offset: usize) -> Option<Self> {
        let (head, tail) = text.split_at_checked(offset)?;
        let line = &head[head.rfind(['\n', '\r']).map_or(0, |end| end + 1)..];
        if line.contains(['|', '(']) || line.contains("//") || line.matches('"').count() % 2 == 1 {
            return None;
        }
        let begun = line.rsplit(char::is_whitespace).next().unwrap_or_default();
        let words = line[..line.len() - begun.len()].split_whitespace();
        let is_end = |letter: char| letter.is_whitespace() || matches!(letter, '|' | '"');
        let rest = tail.find(is_end).unwrap_or(tail.len());
        Some(Self {
            words: words.map(str::to_lowercase).collect(),
            range: offset - begun.len()..offset + rest,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::Before;

    fn of(marked: &str) -> Option<(Vec<String>, String)> {
        let at = marked.find('^').unwrap();
        let text = marked.replacen('^', "", 1);
        Before::of(&text, at).map(|it| (it.words, text[it.range].to_owned()))
    }

    #[test]
    fn a_word_may_be_begun_or_not() {
        let words = |words: &[&str]| words.iter().map(ToString::to_string).collect::<Vec<_>>();
        assert_eq!(of("x\n  Allow cro^ss at"), Some((words(&["allow"]), "cross".to_owned())));
        assert_eq!(of("key ^\n"), Some((words(&["key"]), String::new())));
        assert_eq!(of("^"), Some((Vec::new(), String::new())));
    }

    #[test]
    fn where_no_words_are_looked_for_there_is_nothing() {
        for text in ["bass | C^", "// so^", "by \"An^", "bass | (^"] {
            assert_eq!(of(text), None, "{text}");
        }
    }
}

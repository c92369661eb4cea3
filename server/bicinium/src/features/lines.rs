//! Texts line by line: how lines end, and where two texts differ. It must not know what they say.

use std::ops::Range;

/// The line end that a text uses.
pub fn line_end(text: &str) -> &'static str {
    if text.contains("\r\n") { "\r\n" } else { "\n" }
}

/// The end of the line in which an offset lies, before its line end.
pub fn end_of_line(text: &str, offset: usize) -> usize {
    text[offset..].find(['\n', '\r']).map_or(text.len(), |at| offset + at)
}

/// What has to be replaced to make one text of another: ranges in bytes of the old one, line by line
/// where both have as many lines, each no longer than what differs.
pub fn differences(old: &str, new: &str) -> Vec<(Range<usize>, String)> {
    let [old_lines, new_lines] = [old, new].map(|it| it.split_inclusive('\n').collect::<Vec<_>>());
    if old_lines.len() != new_lines.len() {
        return difference(0, old, new).into_iter().collect();
    }
    let mut start = 0;
    let mut differences = Vec::new();
    for (old, new) in old_lines.into_iter().zip(new_lines) {
        differences.extend(difference(start, old, new));
        start += old.len();
    }
    differences
}

fn difference(start: usize, old: &str, new: &str) -> Option<(Range<usize>, String)> {
    if old == new {
        return None;
    }
    let head = common(old.chars().zip(new.chars()));
    let (old_rest, new_rest) = (&old[head..], &new[head..]);
    let tail = common(old_rest.chars().rev().zip(new_rest.chars().rev()));
    let range = start + head..start + old.len() - tail;
    Some((range, new_rest[..new_rest.len() - tail].to_owned()))
}

/// How many bytes the equal pairs at the beginning take.
fn common(pairs: impl Iterator<Item = (char, char)>) -> usize {
    pairs.take_while(|(old, new)| old == new).map(|(same, _)| same.len_utf8()).sum()
}

#[cfg(test)]
mod tests {
    use super::differences;

    #[test]
    fn only_what_differs_is_replaced() {
        assert_eq!(differences("a\nb♯c\nd", "a\nb♭c\nd"), [(3..6, "♭".to_owned())]);
        assert_eq!(differences("a\nb\n", "a\nx\nb\n"), [(2..2, "x\n".to_owned())]);
        assert_eq!(differences("aa", "aaa"), [(2..2, "a".to_owned())]);
        assert_eq!(differences("same", "same"), []);
    }
}

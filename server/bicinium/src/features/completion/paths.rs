//! The path of a `use` line, folder by folder. It must not know any file.

use std::ops::Range;

use super::{Near, Word, WordKind};

/// What may stand at a byte of a text, if it lies in the path of a `use` line, and what it replaces.
pub(super) fn words(
    text: &str,
    offset: usize,
    near: &Near<'_>,
) -> Option<(Range<usize>, Vec<Word>)> {
    let (head, tail) = text.split_at_checked(offset)?;
    let line = &head[head.rfind(['\n', '\r']).map_or(0, |end| end + 1)..];
    let (opener, path) = line.split_once('"')?;
    if !opener.trim().eq_ignore_ascii_case("use") || path.contains('"') {
        return None;
    }
    let (folder, begun) = path.split_at(path.rfind('/').map_or(0, |stroke| stroke + 1));
    let rest = tail.find(['"', '\n', '\r']).unwrap_or(tail.len());
    let words = (near.sheets)(folder).into_iter().map(word).collect();
    Some((offset - begun.len()..offset + rest, words))
}

fn word(text: String) -> Word {
    let kind = if text.ends_with('/') { WordKind::Folder } else { WordKind::Sheet };
    Word { text, kind, detail: None, docs: Vec::new() }
}

//! How numbers and lists are put in words. It must not know what they are about.

/// "1 fault", "3 faults".
pub fn count(number: usize, one: &str, many: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { many })
}

/// "a", "a and b", "a, b and c".
pub fn list(items: &[String]) -> String {
    match items.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, first)) => format!("{} and {last}", first.join(", ")),
        None => String::new(),
    }
}

/// The text with a large letter at its beginning.
pub fn capitalized(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().into_iter().flat_map(char::to_uppercase);
    first.chain(letters).collect()
}

/// A whole number in groups of three: "1,204".
pub fn grouped(number: &impl ToString) -> String {
    let digits = number.to_string();
    let groups = digits.as_bytes().rchunks(3).rev().map(String::from_utf8_lossy);
    groups.collect::<Vec<_>>().join(",")
}

#[cfg(test)]
mod tests {
    use super::{grouped, list};

    #[test]
    fn numbers_are_grouped_by_thousands() {
        assert_eq!(grouped(&7), "7");
        assert_eq!(grouped(&1204), "1,204");
        assert_eq!(grouped(&1_234_567_u64), "1,234,567");
    }

    #[test]
    fn lists_end_with_and() {
        let of = |items: &[&str]| list(&items.iter().map(ToString::to_string).collect::<Vec<_>>());
        assert_eq!(of(&[]), "");
        assert_eq!(of(&["a"]), "a");
        assert_eq!(of(&["a", "b", "c"]), "a, b and c");
    }
}

//! How lists are put in words. It must not know what they are about.

/// "a", "a and b", "a, b and c".
pub fn list(items: &[String]) -> String {
    match items.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, first)) => format!("{} and {last}", first.join(", ")),
        None => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::list;

    #[test]
    fn lists_end_with_and() {
        let of = |items: &[&str]| list(&items.iter().map(ToString::to_string).collect::<Vec<_>>());
        assert_eq!(of(&[]), "");
        assert_eq!(of(&["a"]), "a");
        assert_eq!(of(&["a", "b", "c"]), "a, b and c");
    }
}

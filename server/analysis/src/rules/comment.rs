//! The comment that opens the file of a rule, cut into parts by its headings. Knows the form of the
//! comment, not what the parts are for.

/// The lines of the opening comment under a heading.
pub(super) fn part<'a>(source: &'a str, heading: &str) -> Vec<&'a str> {
    source
        .lines()
        .map_while(|line| line.strip_prefix("//!"))
        .map(|line| line.strip_prefix(' ').unwrap_or(line))
        .skip_while(|line| line.strip_prefix("# ") != Some(heading))
        .skip(1)
        .take_while(|line| !line.starts_with("# "))
        .collect()
}

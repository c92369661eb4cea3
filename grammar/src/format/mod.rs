//! The formatter.

/// A
pub fn format(text: &str) -> String {
    text.to_owned()
}

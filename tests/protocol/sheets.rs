//! Sheets for the tests: what matters in them is where something is found, not what.

/// A sheet with two tokens that cannot be read, behind characters of every width.
pub(crate) const BROKEN: &str = "\
// Quay School ♯ 𝄪 é
exercise \"No. 1 – 𝄞\"
  soprano | F𝄪4 D♭5 | H4 | C5 |
  bass    | E♭3     | c3 | G3 |
";

/// The parts of [`BROKEN`] about which something must be found.
pub(crate) const UNREADABLE: [&str; 2] = ["H4", "c3"];

/// A sheet in which nothing can be found.
pub(crate) const EMPTY: &str = "// nothing here yet\n";

//! The colours of the command line. It must not know where they are shown; the writer leaves them
//! out where they would not be seen.

use anstyle::{AnsiColor, Style};
use bicinium_analysis::Level;

/// What stands out.
pub(super) const STRONG: Style = Style::new().bold();
/// What stands back.
pub(super) const FAINT: Style = Style::new().dimmed();
/// Another place that belongs to a finding.
pub(super) const OTHER: Style = AnsiColor::Blue.on_default();

/// How a level is shown.
pub(super) fn level(level: Level) -> Style {
    let colour = match level {
        Level::Notation => AnsiColor::Magenta,
        Level::Fault => AnsiColor::Red,
        Level::Caution => AnsiColor::Yellow,
        Level::Advice => AnsiColor::Cyan,
        Level::Unfinished => AnsiColor::Blue,
    };
    colour.on_default().bold()
}

/// The text in a style.
pub(super) fn painted(style: Style, text: &str) -> String {
    format!("{style}{text}{style:#}")
}

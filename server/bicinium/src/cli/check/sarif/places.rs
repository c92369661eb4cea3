//! Places in texts as locations. It must not know what is said about them.

use std::ops::Range;
use std::path::{Component, Path};

use bicinium_analysis::Located;
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, percent_encode};
use serde_sarif::sarif::{ArtifactLocation, Location, LogicalLocation, PhysicalLocation, Region};

use crate::cli::lines::Lines;

/// What is escaped in a part of a path: all that RFC 3986 does not leave free everywhere.
const ESCAPED: &AsciiSet = &NON_ALPHANUMERIC.remove(b'-').remove(b'.').remove(b'_').remove(b'~');

/// The places in a text.
pub(super) struct Places<'t> {
    uri: String,
    lines: Lines<'t>,
}

impl<'t> Places<'t> {
    /// The places in the text of a file.
    pub(super) fn new(path: &Path, text: &'t str) -> Self {
        Self { uri: uri(path), lines: Lines::new(text) }
    }

    /// A stretch of bytes.
    pub(super) fn location(&self, bytes: Range<usize>) -> Location {
        let artifact = ArtifactLocation::builder().uri(&self.uri).build();
        let place =
            PhysicalLocation::builder().artifact_location(artifact).region(self.region(bytes));
        Location::builder().physical_location(place.build()).build()
    }

    /// Where a finding lies, in the text and in the music.
    pub(super) fn location_of(&self, located: Located<'_>) -> Location {
        let mut location = self.location(located.range());
        location.logical_locations = in_music(located).map(|place| vec![place]);
        location
    }

    fn region(&self, bytes: Range<usize>) -> Region {
        let (start, end) = (self.lines.position(bytes.start), self.lines.position(bytes.end));
        Region::builder()
            .start_line(from_one(start.line))
            .start_column(from_one(start.utf16))
            .end_line(from_one(end.line))
            .end_column(from_one(end.utf16))
            .build()
    }
}

fn in_music(located: Located<'_>) -> Option<LogicalLocation> {
    let (number, place) = (located.block.number?, located.finding.place?);
    let (bar, beat) = (place.bar, place.beat);
    let voice = located.finding.voice.map(|voice| format!("/{} voice", voice.name()));
    let place = format!("exercise {number}/bar {bar}/beat {beat}{}", voice.unwrap_or_default());
    Some(LogicalLocation::builder().fully_qualified_name(place).build())
}

fn from_one(from_zero: usize) -> i64 {
    i64::try_from(from_zero).map_or(i64::MAX, |number| number.saturating_add(1))
}

/// A path as a reference: relative as it was given, or with its scheme.
fn uri(path: &Path) -> String {
    let mut parts = Vec::new();
    for component in path.components() {
        match component {
            Component::RootDir => parts.push(String::new()),
            Component::CurDir => {}
            _ => parts.push(
                percent_encode(component.as_os_str().as_encoded_bytes(), ESCAPED).to_string(),
            ),
        }
    }
    let scheme = if path.is_absolute() { "file://" } else { "" };
    format!("{scheme}{}", parts.join("/"))
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    use super::uri;

    #[test]
    fn paths_become_references() {
        assert_eq!(uri(Path::new("a b/no: 3#.bicinium")), "a%20b/no%3A%203%23.bicinium");
        assert_eq!(uri(Path::new("./é.bicinium")), "%C3%A9.bicinium");
        assert_eq!(uri(Path::new("-")), "-");
    }

    #[cfg(unix)]
    #[test]
    fn absolute_paths_get_a_scheme() {
        assert_eq!(uri(Path::new("/sheets/a.bicinium")), "file:///sheets/a.bicinium");
    }
}

//! Tables beside the sheets: tab-separated, with a line of headings, and comments after `#`.

use super::sheets::file;

/// The rows of a table without its headings, each with as many cells as there are headings.
pub fn rows(name: &str) -> Vec<Vec<String>> {
    let text = std::fs::read_to_string(file(name)).unwrap();
    let mut lines = text.lines().filter(|line| !line.starts_with('#'));
    let headings = cells(lines.next().unwrap());
    let rows: Vec<_> = lines.map(cells).collect();
    for row in &rows {
        assert_eq!(row.len(), headings.len(), "{name}: {row:?}");
    }
    rows
}

fn cells(line: &str) -> Vec<String> {
    line.split('\t').map(str::to_owned).collect()
}

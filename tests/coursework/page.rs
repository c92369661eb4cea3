//! The page as a browser and a screen reader take it, read by a parser of another make.

use std::collections::BTreeSet;
use std::io::Write;
use std::process::{Command, Stdio};

use bicinium_tests::tool;
use serde_json::Value;

use crate::run::{class, list, mark, text};

/// What stands in a page; nothing if the parser is not there.
pub fn read(page: &str) -> Option<Value> {
    let asking = ["-c", "import html5lib; print('yes')"];
    let python = tool::that_says("python3", &asking, |said| said.trim() == "yes");
    let python = tool::or_skip(python, "python3 with html5lib")?;
    let mut child = Command::new(python)
        .arg(class().join("page.py"))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("python3 runs");
    child.stdin.take().expect("a pipe").write_all(page.as_bytes()).expect("it reads");
    let output = child.wait_with_output().expect("it ends");
    assert!(output.status.success(), "the page is not valid");
    Some(serde_json::from_slice(&output.stdout).expect("it tells JSON"))
}

#[test]
fn the_page_is_valid_and_every_link_leads_somewhere() {
    let Some(page) = read(&mark(&["--format", "html"]).out) else { return };
    let identifiers: Vec<_> = list(&page["identifiers"]).iter().map(text).collect();
    let different: BTreeSet<_> = identifiers.iter().collect();
    assert_eq!(identifiers.len(), different.len(), "an identifier comes twice");
    let links: Vec<_> = list(&page["links"]).iter().map(text).collect();
    assert!(links.len() > 50);
    for link in links {
        assert!(link.strip_prefix('#').is_some_and(|id| identifiers.contains(&id)), "{link}");
    }
}

#[test]
fn the_page_needs_nothing_else() {
    let page = mark(&["--format", "html"]).out;
    for word in ["http:", "https:", "src=", "@import", "url(", "<script", "<link"] {
        assert!(!page.contains(word), "{word}");
    }
}

#[test]
fn headings_go_down_step_by_step_and_cells_have_headers() {
    let Some(page) = read(&mark(&["--format", "html"]).out) else { return };
    let levels: Vec<_> = list(&page["headings"]).iter().map(|it| text(&it[0])).collect();
    assert_eq!(levels.iter().filter(|level| **level == "h1").count(), 1);
    assert_eq!(levels[0], "h1");
    for pair in levels.windows(2) {
        assert!(pair[1] <= "h2" || pair[0] != "h1", "{pair:?}");
    }
    assert_eq!(list(&page["tables"]).len(), 2);
    for table in list(&page["tables"]) {
        let rows = list(table);
        assert!(list(&rows[0]).iter().all(|cell| cell[1] == "th" && cell[2] == "col"));
        assert!(rows[1..].iter().all(|row| row[0][1] == "th" && row[0][2] == "row"));
        assert!(rows.iter().all(|row| list(row).len() == list(&rows[0]).len()));
    }
}

/// The colours of a block of the style, by name.
fn colours(block: &str) -> Vec<(&str, [f64; 3])> {
    let named = block.split("--").skip(1).filter_map(|part| {
        let (name, value) = part.split_once(": #")?;
        let value = &value[..value.find([';', ' ']).unwrap_or(value.len())];
        let part =
            |at: usize| Some(f64::from(u8::from_str_radix(value.get(at..at + 2)?, 16).ok()?));
        Some((name, [part(0)?, part(2)?, part(4)?]))
    });
    named.collect()
}

/// The luminance of a colour, as the guidelines for readable pages reckon it (WCAG 2.1).
fn luminance(colour: [f64; 3]) -> f64 {
    let linear = colour.map(|part| part / 255.0).map(|part| {
        if part <= 0.03928 { part / 12.92 } else { ((part + 0.055) / 1.055).powf(2.4) }
    });
    0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
}

#[test]
fn text_stands_out_from_the_paper_in_the_light_and_in_the_dark() {
    let page = mark(&["--format", "html"]).out;
    let blocks: Vec<_> = page.split(":root {").skip(1).take(2).collect();
    assert_eq!(blocks.len(), 2);
    for block in blocks {
        let colours = colours(block.split('}').next().unwrap_or_default());
        let of = |name| colours.iter().find(|(own, _)| *own == name).expect("a colour").1;
        for ground in [of("paper"), of("leaf")] {
            for name in ["ink", "soft", "link", "fault", "caution", "advice"] {
                let (a, b) = (luminance(of(name)), luminance(ground));
                let contrast = (a.max(b) + 0.05) / (a.min(b) + 0.05);
                assert!(contrast >= 4.5, "{name}: {contrast}");
            }
        }
    }
}

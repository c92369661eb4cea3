//! The files: SVG read by an XML parser, PNG by its header, PDF by a library of another make.

use std::path::Path;
use std::process::Command;

use bicinium_export::engraving::display::Kind;
use bicinium_export::engraving::writers;
use bicinium_export::engraving::{Clefs, Paper};
use bicinium_tests::tool;
use quick_xml::Reader;
use quick_xml::events::Event;

use crate::sheets;

/// The ids in an SVG document; fails if it is not well-formed.
fn ids(svg: &str) -> Vec<String> {
    let mut reader = Reader::from_str(svg);
    let mut ids = Vec::new();
    loop {
        match reader.read_event().unwrap() {
            Event::Start(element) | Event::Empty(element) => {
                let attributes = element.attributes().map(Result::unwrap);
                let id = attributes.into_iter().find(|it| it.key.as_ref() == b"id");
                ids.extend(id.map(|it| it.unescape_value().unwrap().into_owned()));
            }
            Event::Eof => return ids,
            _ => {}
        }
    }
}

#[test]
fn every_id_of_the_display_list_is_in_the_svg() {
    for (name, text) in sheets::all() {
        let pages = sheets::engraved(&text, Paper::Strip(180), Clefs::Modern);
        for page in &pages {
            let found = ids(&writers::svg(page, "A & B <\u{1}>"));
            let listed = page.groups.iter().filter_map(|group| group.id.as_ref());
            assert!(listed.into_iter().all(|id| found.contains(id)), "{name}");
        }
    }
}

#[test]
fn nothing_in_an_svg_is_used_that_is_not_defined() {
    let pages = sheets::engraved(sheets::MOTLEY, Paper::A4, Clefs::Vocal);
    let svg = writers::svg(&pages[0], "Motley");
    let defined = ids(&svg);
    let used = svg.split("href=\"#").skip(1).filter_map(|rest| rest.split('"').next());
    let missing: Vec<_> = used.filter(|id| !defined.iter().any(|it| it == id)).collect();
    assert!(missing.is_empty(), "{missing:?}");
}

#[test]
fn a_png_has_the_size_of_its_page() {
    let pages = sheets::engraved(sheets::MOTLEY, Paper::A4, Clefs::Modern);
    let png = writers::png(&pages[0], 150).unwrap();
    let number = |from: usize| u32::from_be_bytes(png[from..from + 4].try_into().unwrap());
    // 210 by 297 mm at 150 dots to an inch.
    assert_eq!((&png[1..4], number(16), number(20)), (&b"PNG"[..], 1241, 1754));
}

#[test]
fn a_picture_that_nobody_could_open_is_refused() {
    let text = sheets::MOTLEY.repeat(60);
    let pages = sheets::engraved(&text, Paper::Strip(180), Clefs::Modern);
    assert!(writers::png(&pages[0], 600).is_err());
}

#[test]
fn another_library_reads_pages_and_words_of_a_pdf() {
    let asking = ["-c", "import pypdf; print('yes')"];
    let python = tool::that_says("python3", &asking, |said| said.trim() == "yes");
    let Some(python) = tool::or_skip(python, "python3 with pypdf") else { return };
    let folder = tempfile::tempdir().unwrap();
    let text = sheets::MOTLEY.repeat(3);
    let pages = sheets::engraved(&text, Paper::Letter, Clefs::Modern);
    assert!(pages.len() > 2);
    let path = folder.path().join("motley.pdf");
    std::fs::write(&path, writers::pdf(&pages, "Motley pieces").unwrap()).unwrap();
    let expected = folder.path().join("expected.txt");
    let words: Vec<String> = pages
        .iter()
        .map(|page| {
            let words =
                page.groups.iter().filter(|it| matches!(it.kind, Kind::Words | Kind::Remark));
            words
                .map(bicinium_export::engraving::display::Group::text)
                .collect::<Vec<_>>()
                .join(" ")
        })
        .collect();
    std::fs::write(&expected, words.join("\u{c}")).unwrap();
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/engraving/read_pdf.py");
    let output = Command::new(python).arg(script).args([&path, &expected]).output().unwrap();
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{errors}");
    let said = String::from_utf8_lossy(&output.stdout);
    assert_eq!(said.trim(), format!("{} pages, 215.9 mm wide", pages.len()));
}

//! The pages of the rules as files.

use std::collections::BTreeSet;

use bicinium_analysis::rules::{self, page::Page};

use crate::run::{Folder, OCTAVES, flat};

/// The text of a page as a reader sees it.
fn read(html: &str) -> String {
    let (_, body) = html.split_once("<body>").unwrap();
    let mut text = String::new();
    for part in body.split('<') {
        text.push_str(part.split_once('>').map_or(part, |(_, after)| after));
    }
    text.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&amp;", "&")
}

fn pages() -> Folder {
    let folder = Folder::new();
    let ran = folder.run(&["rules", "--pages", "pages"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    folder
}

/// What stands in an attribute, wherever it occurs.
fn values<'h>(html: &'h str, attribute: &str) -> Vec<&'h str> {
    let start = format!(" {attribute}=\"");
    html.split(&start).skip(1).map(|rest| rest.split('"').next().unwrap()).collect()
}

#[test]
fn every_rule_has_a_page_with_all_that_it_says() {
    let folder = pages();
    for entry in rules::all() {
        let html = folder.text(&format!("pages/{}.html", entry.name));
        let text = flat(&read(&html));
        let page = Page::of(entry.source);
        let parts =
            [page.finds, page.why, page.broken, page.mended, page.sources, page.differences];
        for part in parts {
            assert!(text.contains(&flat(&part.replace('`', ""))), "{}: {part}", entry.name);
        }
        for answer in page.switches.iter().flat_map(|switch| &switch.answers) {
            assert!(text.contains(&flat(&answer.holders)), "{}: {answer:?}", entry.name);
        }
        assert!(html.contains("<mark>"), "{}", entry.name);
    }
}

#[test]
fn pages_need_nothing_else_and_lead_to_each_other() {
    let folder = pages();
    let index = folder.text("pages/index.html");
    let linked: BTreeSet<_> = values(&index, "href").into_iter().collect();
    let names: Vec<_> = rules::all().map(|entry| format!("{}.html", entry.name)).collect();
    assert_eq!(linked, names.iter().map(String::as_str).collect());
    for name in names {
        let html = folder.text(&format!("pages/{name}"));
        assert_eq!(values(&html, "href"), ["index.html"]);
        assert_eq!(values(&html, "src"), Vec::<&str>::new());
        for foreign in ["<script", "<link", "@import", "url("] {
            assert!(!html.contains(foreign), "{name}: {foreign}");
        }
    }
}

#[test]
fn pages_are_made_anew_without_a_question() {
    let folder = pages();
    let before = folder.text("pages/crossing.html");
    folder.save("pages/crossing.html", before.replace("lower", "higher"));
    assert_eq!(folder.run(&["rules", "--pages", "pages"]).code, 0);
    assert_eq!(folder.text("pages/crossing.html"), before);
}

#[test]
fn other_files_are_kept_unless_the_person_insists() {
    let folder = Folder::with("pages/index.html", "<p>my own</p>");
    let ran = folder.run(&["rules", "--pages", "pages"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert!(ran.err.contains("index.html is there already"), "{}", ran.err);
    assert_eq!(folder.text("pages/index.html"), "<p>my own</p>");
    assert!(!folder.path("pages/crossing.html").exists());
    assert_eq!(folder.run(&["rules", "--pages", "pages", "--force"]).code, 0);
    assert!(folder.text("pages/index.html").contains("crossing.html"));
}

#[test]
fn a_page_of_marks_is_no_page_of_rules() {
    let folder = Folder::with("set.bicinium", OCTAVES);
    folder.save("in.bicinium", OCTAVES);
    std::fs::create_dir(folder.path("pages")).unwrap();
    let page = ["--format", "html", "-o", "pages/index.html"];
    folder.run(&[&["mark", "in.bicinium", "--against", "set.bicinium"], &page[..]].concat());
    let marks = folder.text("pages/index.html");
    let ran = folder.run(&["rules", "--pages", "pages"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("index.html is there already"), "{}", ran.err);
    assert_eq!(folder.text("pages/index.html"), marks);
}

#[test]
fn other_files_beside_them_do_not_matter() {
    let folder = Folder::with("pages/notes.txt", "my own");
    assert_eq!(folder.run(&["rules", "--pages", "pages"]).code, 0);
    assert_eq!(folder.text("pages/notes.txt"), "my own");
}

#[test]
fn a_folder_that_cannot_be_is_told() {
    let folder = Folder::with("pages", "a file");
    let ran = folder.run(&["rules", "--pages", "pages"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert!(ran.err.contains("pages cannot be written"), "{}", ran.err);
    assert_eq!(folder.text("pages"), "a file");
}

#[test]
fn another_rulebook_gets_a_place_on_the_pages() {
    let folder = Folder::with(
        "school.toml",
        "name = \"harbour\"\ntitle = \"Harbour & Sons\"\nextends = \"tonal\"\n\
         [rules.crossing]\nlevel = \"advice\"\nat-most = 2\n",
    );
    folder.run(&["rules", "--pages", "pages", "--rulebook", "school.toml"]);
    let page = flat(&read(&folder.text("pages/crossing.html")));
    assert!(page.contains("harbouradvice"), "{page}");
    assert!(page.contains("from memoryharbour"), "{page}");
}

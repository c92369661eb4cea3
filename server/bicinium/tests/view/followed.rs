//! The page of a file follows it, and all that it takes something from.

use serde_json::Value;

use crate::SHEET;
use crate::served::Served;

/// What is told of the first exercise.
fn told(served: &Served) -> Vec<String> {
    let shown = served.page.data("exercise.json?number=1&width=120");
    let told = shown["findings"].as_array().unwrap().iter();
    told.map(|finding: &Value| format!("{} {}", finding["level"], finding["rule"])).collect()
}

#[test]
fn the_page_follows_the_file() {
    let served = Served::with(SHEET);
    let mut news = served.page.listen();
    assert_eq!(news.next(), "0");
    served.write("sheet.bicinium", &SHEET.replace("Quay", "Mill"));
    assert_eq!(news.next(), "1");
    assert!(served.page.ask("sheet.json").body.contains("Mill"));
    served.remove("sheet.bicinium");
    assert_eq!(news.next(), "2");
    assert!(served.page.ask("sheet.json").body.contains("there is no such file"));
    served.write("sheet.bicinium", SHEET);
    assert_eq!(news.next(), "3");
    assert!(served.page.ask("sheet.json").body.contains("Quay"));
}

#[test]
fn the_page_follows_the_sheets_that_are_used() {
    let sheet = "use \"songs.bicinium\"\n\nexercise \"Quay\"\n  species 1\n  soprano cantus song | C5 | D5 | C5 |\n  \
                 alto counter | C4 | B3 | C4 |\n";
    let songs = "cantus song\n  line | C5 | D5 | C5 |\n";
    let served = Served::among(sheet, &[("songs.bicinium", songs)]);
    let is_altered = |told: &[String]| told.iter().any(|it| it.contains("cantus-altered"));
    assert!(!is_altered(&told(&served)));
    let mut news = served.page.listen();
    assert_eq!(news.next(), "0");
    served.write("songs.bicinium", &songs.replace("D5", "E5"));
    assert_eq!(news.next(), "1");
    assert!(is_altered(&told(&served)), "{:?}", told(&served));
    served.write("sheet.bicinium", &sheet.replace("D5", "E5"));
    assert_eq!(news.next(), "2");
    assert!(!is_altered(&told(&served)));
}

#[test]
fn the_page_follows_the_rulebooks_even_those_that_are_not_there_yet() {
    let sheet = format!("rulebook harbour\n{SHEET}");
    let served = Served::with(&sheet);
    assert_eq!(told(&served), [r#""advice" "high-point""#]);
    let mut news = served.page.listen();
    assert_eq!(news.next(), "0");
    let write = |level: &str| {
        let text = format!("extends = \"tonal\"\n[rules.high-point]\nlevel = \"{level}\"\n");
        std::fs::write(served.path("harbour.rulebook.toml"), text).unwrap();
    };
    write("fault");
    assert_eq!(news.next(), "1");
    assert_eq!(told(&served), [r#""fault" "high-point""#]);
    write("caution");
    assert_eq!(news.next(), "2");
    assert_eq!(told(&served), [r#""caution" "high-point""#]);
}

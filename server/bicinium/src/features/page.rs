//! The page of a rule as text in parts: whole, as an explanation of a finding, or in one paragraph.
//! It must not know what any rule is about.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use bicinium_analysis::rules::switch::{Answer, Switch, Written};
use bicinium_analysis::rules::{self, Entry, page::Page};
use bicinium_analysis::{Rulebook, Shelf};

use super::levels::Levels;
use super::section::Section;

/// All that there is to say about a rule.
pub fn whole(entry: &Entry) -> Vec<Section> {
    let page = Page::of(entry.source);
    let mut body = vec![
        Section::Heading(entry.name.to_owned()),
        Section::Text(page.finds),
        Section::Text(page.why),
        Section::Text("Broken:".to_owned()),
        Section::Sheet(page.broken),
        Section::Text("Mended:".to_owned()),
        Section::Sheet(page.mended),
        Section::Fact("sources", page.sources),
        Section::Fact("schools", page.differences),
        Section::Fact("levels", levels(entry)),
    ];
    body.extend(page.switches.iter().flat_map(switch));
    body
}

/// What a rule finds and why, for whoever looks for one.
pub fn summary(entry: &Entry) -> Vec<Section> {
    let page = Page::of(entry.source);
    let sources = Section::Fact("sources", page.sources);
    vec![Section::Text(page.finds), Section::Text(page.why), sources]
}

/// What explains a finding of a rule: why it matters, who says so, and an example that is right.
/// Nothing if there is no rule of that name.
pub fn explanation(rule: &str) -> Vec<Section> {
    let Some(entry) = rules::named(rule) else { return Vec::new() };
    let page = Page::of(entry.source);
    vec![
        Section::Text(page.why),
        Section::Fact("sources", page.sources),
        Section::Fact("schools", page.differences),
        Section::Text("An example that keeps the rule:".to_owned()),
        Section::Sheet(page.mended),
    ]
}

/// What a rule is for and where it stands, in one paragraph; `None` if there is no rule of that
/// name.
pub fn purpose(rule: &str) -> Option<&'static str> {
    PURPOSES.get(rule).map(String::as_str)
}

/// Makes ready what each rule is for, which takes longer than to ask for it.
pub fn learn_purposes() {
    LazyLock::force(&PURPOSES);
}

/// What each rule is for: asked for with every finding, and the same each time.
static PURPOSES: LazyLock<BTreeMap<&str, String>> = LazyLock::new(|| {
    let purpose = |entry: &Entry| {
        let page = Page::of(entry.source);
        (entry.name, format!("{} Sources: {}", page.why, page.sources))
    };
    rules::all().map(purpose).collect()
});

/// "modal: caution; tonal: fault".
fn levels(entry: &Entry) -> String {
    let level = |book: &Rulebook| {
        let levels = Levels::of(book, entry.name).words();
        format!("{}: {levels}", book.name)
    };
    let shelf = Shelf::default();
    shelf.all().map(|book| level(book)).collect::<Vec<_>>().join("; ")
}

fn switch(switch: &Switch) -> [Section; 2] {
    let question = format!("`{}`: {}", switch.key, switch.question);
    let answers = switch.answers.iter().map(answer).collect();
    [Section::Fact("switch", question), Section::List(answers)]
}

fn answer(answer: &Answer) -> String {
    let written = match &answer.written {
        Written::So(words) => format!("`{words}`"),
        Written::Like(words) => words.clone(),
    };
    format!("{written}: {} ({})", answer.meaning, answer.holders)
}

//! The syntax definition for Sublime Text, in an engine that reads such definitions.

use std::fs;
use std::ops::Range;
use std::path::Path;

use serde_json::json;
use syntect::parsing::{ParseState, ScopeStack, SyntaxDefinition, SyntaxSet, SyntaxSetBuilder};

use crate::held::{Stretch, differences};
use bicinium_tests::sheets;

/// The class that a scope stands for.
const CLASSES: [(&str, &str); 14] = [
    ("comment", "comment"),
    ("keyword.operator.hold", "hold"),
    ("keyword", "keyword"),
    ("storage.type.role", "role"),
    ("support.type.mode", "mode"),
    ("entity.name.function.numeral", "numeral"),
    ("entity.name", "name"),
    ("constant.numeric", "number"),
    ("string", "text"),
    ("punctuation.separator.barline", "barline"),
    ("punctuation.section.group", "group"),
    ("constant.language.hole", "hole"),
    ("constant.language.rest", "rest"),
    ("constant.other.pitch", "pitch"),
];

#[test]
fn every_token_has_its_scope() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let path = root.join("../editors/sublime/bicinium.sublime-syntax");
    let text = fs::read_to_string(path).expect("the definition is text");
    let definition = SyntaxDefinition::load_from_str(&text, true, None).expect("it can be read");
    let mut builder = SyntaxSetBuilder::new();
    builder.add(definition);
    let syntaxes = builder.build();
    let sheets = sheets::all();
    let wrong: Vec<_> =
        sheets.iter().flat_map(|sheet| differences(sheet, &read(&sheet.text, &syntaxes))).collect();
    assert!(wrong.is_empty(), "{} tokens:\n{}", wrong.len(), wrong.join("\n"));
}

/// The stretches of a sheet.
fn read(text: &str, syntaxes: &SyntaxSet) -> Vec<Stretch> {
    let syntax = syntaxes.find_syntax_by_name("Bicinium").expect("it is there");
    let (mut state, mut scopes) = (ParseState::new(syntax), ScopeStack::new());
    let (mut stretches, mut offset) = (Vec::new(), 0);
    for line in text.split_inclusive('\n') {
        let mut start = 0;
        for (at, change) in state.parse_line(line, syntaxes).expect("every line can be read") {
            stretches.extend(stretch(&scopes, offset + start..offset + at));
            scopes.apply(&change).expect("scopes are opened before they are closed");
            start = at;
        }
        stretches.extend(stretch(&scopes, offset + start..offset + line.len()));
        offset += line.len();
    }
    stretches
}

/// The stretch that has these scopes, if they stand for a class.
fn stretch(scopes: &ScopeStack, bytes: Range<usize>) -> Option<Stretch> {
    let mut names = scopes.as_slice().iter().map(ToString::to_string);
    let scope = names.rfind(|name| !name.starts_with("source"))?;
    let (_, class) = CLASSES.iter().find(|(prefix, _)| scope.starts_with(prefix))?;
    let stretch = json!({"start": bytes.start, "end": bytes.end, "class": class});
    serde_json::from_value(stretch).ok().filter(|_| !bytes.is_empty())
}

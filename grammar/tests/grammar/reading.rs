//! What the typed view tells of text that can be read.

use bicinium_grammar::ast::{
    Bar, Block, CantusBlock, ExerciseBlock, ItemKind, Licence, Role, Row, SettingValue,
};
use bicinium_grammar::{BlockKind, SheetTree, Spelling, TextRange, TextSize};

use crate::meaning::items;
use crate::sheets::SHEET;

fn exercise(text: &str) -> ExerciseBlock {
    let sheet = SheetTree::parse(text);
    let found = sheet.blocks().iter().find_map(|block| match block.ast() {
        Block::Exercise(exercise) => Some(exercise),
        _ => None,
    });
    found.expect("the text has an exercise")
}

fn cantus(text: &str) -> CantusBlock {
    match SheetTree::parse(text).blocks()[1].ast() {
        Block::Cantus(cantus) => cantus,
        other => panic!("{other:?}"),
    }
}

/// The bars of one row with the given content.
fn row(content: &str) -> Vec<Bar> {
    exercise(&format!("exercise\n  bass {content}\n")).rows()[0].bars()
}

fn bar(content: &str) -> String {
    let bars = row(&format!("| {content} |"));
    assert_eq!(bars.len(), 1);
    items(bars[0].items())
}

fn values(text: &str) -> Vec<SettingValue> {
    let sheet = SheetTree::parse(text);
    let settings = sheet.blocks().iter().flat_map(|block| block.ast().settings());
    settings.map(|setting| setting.value).collect()
}

fn key(tonic: (char, i8), mode: &str) -> SettingValue {
    let (letter, accidental) = tonic;
    SettingValue::Key { tonic: Some(Spelling { letter, accidental }), mode: Some(mode.to_owned()) }
}

fn slice(text: &str, range: Option<TextRange>) -> &str {
    &text[std::ops::Range::<usize>::from(range.expect("it stands there"))]
}

#[test]
fn a_sheet_falls_into_its_blocks() {
    let kinds: Vec<_> = SheetTree::parse(SHEET).blocks().iter().map(|block| block.kind).collect();
    assert_eq!(kinds, [BlockKind::Preamble, BlockKind::Cantus, BlockKind::Exercise]);
}

#[test]
fn a_block_is_opened_by_the_first_word_of_a_line_alone() {
    let text = "exercise\nsoprano cantus x | C4 |\n// cantus\n  CANTUS x\nexercise-two\n";
    let kinds: Vec<_> = SheetTree::parse(text).blocks().iter().map(|block| block.kind).collect();
    assert_eq!(kinds, [BlockKind::Preamble, BlockKind::Exercise, BlockKind::Cantus]);
}

#[test]
fn settings_have_values() {
    let text = "rulebook house-rules\nrulebook \"rules/house.toml\"\nmeter 3/2\nkey F# Dorian\n\
                key Eb minor\nKEY B♭ MAJOR\nspecies 5\nby \"A. B.\"\n";
    let rulebook = |name: &str| SettingValue::Rulebook(name.to_owned());
    let expected = [
        rulebook("house-rules"),
        rulebook("rules/house.toml"),
        SettingValue::Meter { beats: 3, unit: 2 },
        key(('F', 1), "dorian"),
        key(('E', -1), "minor"),
        key(('B', -1), "major"),
        SettingValue::Species(5),
        SettingValue::By("A. B.".to_owned()),
    ];
    assert_eq!(values(text), expected);
}

#[test]
fn unreadable_values_are_no_settings() {
    assert_eq!(values("species 6\nmeter 0/4\nmeter 4294967296/4\nkey\nby Anna\nrulebook\n"), []);
}

#[test]
fn what_can_be_read_of_a_key_is_told() {
    let tonic = Some(Spelling { letter: 'G', accidental: 0 });
    assert_eq!(values("key G\n"), [SettingValue::Key { tonic, mode: None }]);
    let mode = Some("minor".to_owned());
    assert_eq!(values("key H minor\n"), [SettingValue::Key { tonic: None, mode }]);
}

#[test]
fn settings_and_uses_know_their_place() {
    let text = "  key  G major // home\nuse \"a b.bicinium\"\n";
    let sheet = SheetTree::parse(text);
    let preamble = sheet.blocks()[0].ast();
    let setting = &preamble.settings()[0];
    assert_eq!(slice(text, Some(setting.range)), "key  G major");
    assert_eq!(slice(text, Some(setting.value_range)), "G major");
    let used = &preamble.uses()[0];
    assert_eq!(used.path, "a b.bicinium");
    assert_eq!(slice(text, Some(used.range)), "use \"a b.bicinium\"");
    assert_eq!(slice(text, Some(used.path_range)), "\"a b.bicinium\"");
}

#[test]
fn a_misspelt_opening_word_opens_its_block() {
    let text = "excercise \"a\"\n  bass | C3 |\ncantsu song\n  line | D4 |\nexercise\n";
    let sheet = SheetTree::parse(text);
    let kinds: Vec<_> = sheet.blocks().iter().map(|block| block.kind).collect();
    let expected =
        [BlockKind::Preamble, BlockKind::Exercise, BlockKind::Cantus, BlockKind::Exercise];
    assert_eq!(kinds, expected);
    let problems: Vec<_> = sheet.blocks().iter().map(|block| block.problems.len()).collect();
    assert_eq!(problems, [0, 1, 1, 0]);
    let Block::Exercise(exercise) = sheet.blocks()[1].ast() else { panic!("no exercise") };
    assert_eq!((exercise.title().as_deref(), exercise.rows().len()), (Some("a"), 1));
    let Block::Cantus(cantus) = sheet.blocks()[2].ast() else { panic!("no cantus") };
    assert_eq!((cantus.name().as_deref(), cantus.rows().len()), (Some("song"), 1));
}

#[test]
fn a_row_with_a_name_like_an_opening_word_opens_nothing() {
    assert_eq!(SheetTree::parse("exercise\n  bass | C3 |\n  cantu | C4 |").blocks().len(), 2);
}

#[test]
fn a_cantus_has_a_name_and_rows() {
    let text = "cantus quay-song // old\n  line | G4 | C5 |\n  line | B4 | A4\n";
    let cantus = cantus(text);
    assert_eq!(cantus.name().as_deref(), Some("quay-song"));
    assert_eq!(slice(text, cantus.name_range()), "quay-song");
    assert_eq!(slice(text, Some(cantus.head_range())), "cantus quay-song");
    let bars = cantus.rows().iter().map(|row| row.bars().len()).collect::<Vec<_>>();
    assert_eq!(bars, [2, 2]);
}

#[test]
fn titles_may_be_left_out() {
    assert_eq!(exercise("exercise\n").title(), None);
    assert_eq!(exercise("exercise \"No. 3: below\"\n").title().as_deref(), Some("No. 3: below"));
    assert_eq!(exercise("exercise \"\"\n").title().as_deref(), Some(""));
}

#[test]
fn the_head_of_a_voice_is_register_role_and_cantus() {
    let text = "exercise\n  Soprano cantus quay-song | G4 |\n  bass COUNTER | G3 |\n  alto | |\n";
    let rows = exercise(text).rows();
    let heads: Vec<_> = rows
        .iter()
        .map(|row| match row {
            Row::Voice(row) => (row.register(), row.role(), row.cantus_name()),
            Row::Harmony(_) => panic!("no harmony here"),
        })
        .collect();
    let name = Some("quay-song".to_owned());
    assert_eq!(heads[0], (Some("soprano"), Some(Role::Cantus), name));
    assert_eq!(heads[1], (Some("bass"), Some(Role::Counter), None));
    assert_eq!(heads[2], (Some("alto"), None, None));
    let Row::Voice(first) = &rows[0] else { panic!("a voice") };
    assert_eq!(slice(text, first.register_range()), "Soprano");
    assert_eq!(slice(text, first.role_range()), "cantus");
    assert_eq!(slice(text, first.cantus_name_range()), "quay-song");
    assert_eq!(slice(text, Some(first.head_range())), "Soprano cantus quay-song");
}

#[test]
fn bars_stand_between_barlines() {
    for (content, count) in [
        ("|", 0),
        ("|   // nothing", 0),
        ("| C4 | D4", 2),
        ("| C4 | D4 |", 2),
        ("| C4 | D4 |  // two", 2),
        ("| C4 | |", 2),
        ("|  | | C5 |", 3),
        ("||", 1),
        ("|C4|D4", 2),
    ] {
        assert_eq!(row(content).len(), count, "{content}");
    }
}

#[test]
fn blank_bars_have_a_place() {
    let text = "exercise\n  bass | C4 |   ||\n";
    let bars = exercise(text).rows()[0].bars();
    assert_eq!(slice(text, Some(bars[1].range())), "   ");
    assert!(bars[1].is_blank() && bars[2].is_blank() && !bars[0].is_blank());
    assert_eq!(slice(text, Some(bars[0].range())), " C4 ");
    assert_eq!(slice(text, Some(bars[0].written_range())), "C4");
    assert_eq!(usize::from(bars[2].range().start()), text.len() - 2);
}

#[test]
fn notes_are_letter_accidental_and_octave() {
    assert_eq!(bar("C4 F#3 Bb5 Gx2 A##1"), "C+0/4 F+1/3 B-1/5 G+2/2 A+2/1");
    assert_eq!(bar("Ebb0 D9"), "E-2/0 D+0/9");
    assert_eq!(bar("F♯3 B♭5 G𝄪2 E𝄫0 C♮4 A♯♯1 D♭♭4"), "F+1/3 B-1/5 G+2/2 E-2/0 C+0/4 A+2/1 D-2/4");
    assert_eq!(bar("Bb G"), "B-1/none G+0/none");
}

#[test]
fn spacing_carries_no_meaning_in_bars() {
    assert_eq!(bar("A4-(G4 F4)?"), "A+0/4 hold (G+0/4 F+0/4) hole");
    assert_eq!(bar("A4 - ( G4 F4 ) ?"), "A+0/4 hold (G+0/4 F+0/4) hole");
    assert_eq!(bar("rest\tREST\u{a0}--"), "rest rest hold hold");
}

#[test]
fn groups_stand_in_groups() {
    assert_eq!(bar("(C4 (D4 E4)) F4"), "(C+0/4 (D+0/4 E+0/4)) F+0/4");
    let deepest = format!("{}C4{}", "(".repeat(8), ")".repeat(8));
    assert_eq!(bar(&deepest), deepest.replace("C4", "C+0/4"));
}

#[test]
fn what_cannot_be_read_keeps_its_place_in_the_bar() {
    assert_eq!(bar("c4 D4 what E4"), "broken D+0/4 broken E+0/4");
    assert_eq!(bar("() D4"), "broken D+0/4");
    assert_eq!(bar("D4, E4 ,"), "D+0/4 E+0/4");
}

#[test]
fn items_know_their_place() {
    let text = "exercise\n  bass | C4 ( D4 E4 ) |\n";
    let items = exercise(text).rows()[0].bars()[0].items().to_vec();
    assert_eq!(slice(text, Some(items[0].range)), "C4");
    assert_eq!(slice(text, Some(items[1].range)), "( D4 E4 )");
    let ItemKind::Group(inner) = &items[1].kind else { panic!("a group") };
    assert_eq!(slice(text, Some(inner[1].range)), "E4");
}

#[test]
fn harmony_rows_hold_numerals() {
    let text = "exercise\n  harmony | I | ii6 viio6 | - V6/5 | ? | | vii°4/3 | viiø7 III+ |\n";
    let bars = exercise(text).rows()[0].bars();
    let told: Vec<_> = bars.iter().map(|bar| items(bar.items())).collect();
    assert_eq!(told, ["I", "ii6 vii°6", "hold V6/5", "hole", "", "vii°4/3", "viiø7 III+"]);
}

#[test]
fn licences_name_rule_place_and_reason() {
    let text = "exercise\nallow weak-beat-fifths at 3.2 to 5 because \"it passes\" // so\n\
                allow crossing\nallow overlap AT 7\n";
    let licences = exercise(text).licences();
    let places: Vec<_> = licences
        .iter()
        .map(|licence| (licence.from().map(|from| (from.bar, from.beat)), licence.to()))
        .collect();
    assert_eq!(places[0], (Some((3, Some(2))), Some(5)));
    assert_eq!(places[1], (None, None));
    assert_eq!(places[2], (Some((7, None)), None));
    assert_eq!(licences[0].rule().as_deref(), Some("weak-beat-fifths"));
    assert_eq!(licences[0].reason().as_deref(), Some("it passes"));
    assert_eq!(slice(text, licences[0].rule_range()), "weak-beat-fifths");
    let whole = "allow weak-beat-fifths at 3.2 to 5 because \"it passes\"";
    assert_eq!(slice(text, Some(licences[0].range())), whole);
}

#[test]
fn a_licence_may_name_a_rule_like_a_clause_only_by_mistake() {
    let licence = &exercise("exercise\nallow at 3\n").licences()[0];
    assert_eq!((licence.rule(), licence.from().map(|from| from.bar)), (None, Some(3)));
}

#[test]
fn a_place_that_cannot_be_read_is_not_the_same_as_none() {
    let text = "exercise\nallow a\nallow b at 3 to 5\nallow c at x\nallow d at 3 to x\nallow e at\n\
                allow f to 4";
    let licences = exercise(text).licences();
    let unreadable: Vec<_> = licences.iter().map(Licence::has_unreadable_place).collect();
    assert_eq!(unreadable, [false, false, true, true, true, true]);
}

#[test]
fn words_of_the_notation_are_found_at_their_place() {
    let text = "Exercise\n  key G Major\n  sopran | rest C4 |\n";
    let sheet = SheetTree::parse(text);
    let at = |text_at: &str| {
        let offset = TextSize::try_from(text.find(text_at).expect("it is in the text")).ok()?;
        sheet.blocks()[1].keyword_at(offset + TextSize::of(text_at))
    };
    let word = |text_at: &str| at(text_at).map(|(word, _)| word);
    assert_eq!(word("Ex").as_deref(), Some("exercise"));
    assert_eq!(word("key").as_deref(), Some("key"));
    assert_eq!(word("Maj").as_deref(), Some("major"));
    assert_eq!(word("re").as_deref(), Some("rest"));
    assert_eq!([word("G"), word("sop"), word("C4")], [None, None, None]);
    assert_eq!(slice(text, at("Maj").map(|(_, range)| range)), "Major");
    assert_eq!(sheet.blocks()[1].keyword_at(TextSize::from(9999)), None);
}

#[test]
fn misspelt_words_are_read_as_what_they_are_nearest_to() {
    let text = "exercise\nspecis 2\nsopran cants quay | C4 |\nharmny | V |\nkey G mayor\n";
    let exercise = exercise(text);
    let settings: Vec<_> = exercise.settings().into_iter().map(|setting| setting.value).collect();
    assert_eq!(settings, [SettingValue::Species(2), key(('G', 0), "major")]);
    let [Row::Voice(voice), Row::Harmony(harmony)] = &exercise.rows()[..] else { panic!("rows") };
    assert_eq!((voice.register(), voice.role()), (Some("soprano"), Some(Role::Cantus)));
    assert_eq!(voice.cantus_name().as_deref(), Some("quay"));
    assert_eq!(items(harmony.bars()[0].items()), "V");
}

#[test]
fn the_notes_of_a_row_with_an_unknown_name_are_read() {
    let rows = exercise("exercise\nviolin | C4 |\n| D4 |\n").rows();
    let notes: Vec<_> = rows.iter().map(|row| items(row.bars()[0].items())).collect();
    assert_eq!(notes, ["C+0/4", "D+0/4"]);
    let Row::Voice(voice) = &rows[0] else { panic!("a voice") };
    assert_eq!(voice.register(), None);
}

#[test]
fn lines_end_in_any_way_and_a_byte_order_mark_is_no_word() {
    let text = "\u{feff}exercise\r\n  bass | C4 |\r  harmony | I |\n";
    assert_eq!(exercise(text).rows().len(), 2);
}

#[test]
fn a_block_does_not_know_where_it_stands() {
    let alone = SheetTree::parse("exercise\n  bass | C4 | d4\n");
    let after = SheetTree::parse("// before\ncantus x\nexercise\n  bass | C4 | d4\n");
    assert_eq!(alone.blocks()[1], after.blocks()[2]);
}

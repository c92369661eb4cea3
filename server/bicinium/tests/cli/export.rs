//! Writing exercises for other programs.

use crate::run::{CLEAN, Folder, OCTAVES, flat};

#[test]
fn the_name_of_the_file_says_what_is_written() {
    let folder = Folder::with("a.bicinium", CLEAN);
    let ran = folder.run(&["export", "a.bicinium", "-o", "a.musicxml"]);
    assert_eq!((ran.code, ran.out.as_str()), (0, "a.musicxml written.\n"));
    let score = folder.text("a.musicxml");
    assert!(score.contains("<fifths>1</fifths>") && score.contains("<step>G</step>"), "{score}");
    assert!(score.contains("<figure-number>") && score.contains("<numeral-root"), "{score}");
    assert_eq!(folder.run(&["export", "a.bicinium", "-o", "a.mid"]).code, 0);
    assert!(std::fs::read(folder.path("a.mid")).unwrap().starts_with(b"MThd"));
    let ran = folder.run(&["export", "a.bicinium", "-o", "a.doc"]);
    assert_eq!(ran.code, 2);
    assert!(flat(&ran.err).contains("end in .musicxml"), "{}", ran.err);
}

#[test]
fn what_is_shown_beside_the_notes_is_chosen() {
    let folder = Folder::with("a.bicinium", OCTAVES);
    folder.run(&["export", "a.bicinium", "-o", "a.musicxml", "--show", "nothing"]);
    let score = folder.text("a.musicxml");
    assert!(!score.contains("<figured-bass") && !score.contains("<words"), "{score}");
    folder.run(&["export", "a.bicinium", "-o", "b.musicxml", "--show", "findings"]);
    let score = folder.text("b.musicxml");
    assert!(score.contains("<words>fault: ") && !score.contains("<harmony"), "{score}");
}

#[test]
fn a_file_is_replaced_only_on_demand() {
    let folder = Folder::with("a.bicinium", CLEAN);
    folder.save("a.mid", "mine");
    let ran = folder.run(&["export", "a.bicinium", "-o", "a.mid"]);
    assert_eq!(ran.code, 2);
    assert!(flat(&ran.err).contains("add --force"), "{}", ran.err);
    assert_eq!(folder.text("a.mid"), "mine");
    assert_eq!(folder.run(&["export", "a.bicinium", "-o", "a.mid", "--force"]).code, 0);
    assert!(std::fs::read(folder.path("a.mid")).unwrap().starts_with(b"MThd"));
}

#[test]
fn one_of_several_exercises_is_named() {
    let folder =
        Folder::with("a.bicinium", format!("{CLEAN}\n{}", OCTAVES.replace("key", "// key")));
    let ran = folder.run(&["export", "a.bicinium", "-o", "a.musicxml"]);
    assert_eq!(ran.code, 2);
    assert!(flat(&ran.err).contains("2 exercises: say which one"), "{}", ran.err);
    let second = ["export", "a.bicinium", "-o", "a.musicxml", "--exercise", "2"];
    assert_eq!(folder.run(&second).code, 0);
    assert!(folder.text("a.musicxml").contains("<part-name>Tenor</part-name>"));
    let third = ["export", "a.bicinium", "-o", "b.musicxml", "--exercise", "3"];
    assert!(flat(&folder.run(&third).err).contains("no such exercise; the sheet has 2 exercises"));
    let ran = folder.run(&["export", "none.bicinium", "-o", "b.musicxml"]);
    assert!(flat(&ran.err).contains("none.bicinium cannot be read"), "{}", ran.err);
}

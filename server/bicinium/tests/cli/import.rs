//! Scores of other programs taken over on the command line.

use crate::run::{CLEAN, Folder, flat};

/// A folder with a score that was exported from a sheet.
fn exported() -> Folder {
    let folder = Folder::with("a.bicinium", CLEAN);
    assert_eq!(
        folder.run(&["export", "a.bicinium", "-o", "a.musicxml", "--show", "nothing"]).code,
        0
    );
    folder
}

#[test]
fn a_score_comes_back_as_the_sheet_that_it_was() {
    let folder = exported();
    let task = ["--species", "2", "--cantus", "upper"];
    let ran = folder.run(&[&["import", "a.musicxml", "-o", "b.bicinium"], &task[..]].concat());
    assert_eq!((ran.code, ran.out.as_str(), ran.err.as_str()), (0, "b.bicinium written.\n", ""));
    let sheet = folder.text("b.bicinium");
    let bass = "bass    counter | rest G2 | F#2 D3 | G2 B2 | E3 D3 | E3 C3 | D3 C3 | D3 F#3 | G3 |";
    assert!(sheet.contains("soprano cantus  | G4 "), "{sheet}");
    assert!(sheet.contains(bass) && sheet.contains("key G major"), "{sheet}");
    assert_eq!(folder.run(&["check", "b.bicinium"]).out, folder.run(&["check", "a.bicinium"]).out);
    assert_eq!(folder.run(&["format", "--check", "b.bicinium"]).code, 0, "{sheet}");
    let shown = folder.run(&[&["import", "a.musicxml"], &task[..]].concat());
    assert_eq!((shown.code, shown.out), (0, sheet));
}

#[test]
fn what_is_left_out_is_told() {
    let folder = exported();
    let score = folder.text("a.musicxml").replacen("</duration>", "</duration><lyric/>", 1);
    folder.save("b.musicxml", score);
    let ran = folder.run(&["import", "b.musicxml"]);
    assert_eq!(ran.code, 1);
    assert!(flat(&ran.err).contains("Part 1 (Soprano), bar 1: the words"), "{}", ran.err);
    assert!(ran.out.contains("soprano | G4"), "{}", ran.out);
}

#[test]
fn what_cannot_be_read_is_refused() {
    let folder = exported();
    folder.save("junk.musicxml", "junk");
    for (score, why) in [("junk.musicxml", "no MusicXML score"), ("none.mxl", "no such file")] {
        let ran = folder.run(&["import", score, "-o", "c.bicinium"]);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{score}");
        assert!(flat(&ran.err).contains(why), "{}", ran.err);
        assert!(!folder.path("c.bicinium").exists());
    }
    let ran = folder.run(&["import", "a.musicxml", "-o", "a.bicinium"]);
    assert_eq!((ran.code, folder.text("a.bicinium").as_str()), (2, CLEAN));
    assert!(flat(&ran.err).contains("add --force"), "{}", ran.err);
}

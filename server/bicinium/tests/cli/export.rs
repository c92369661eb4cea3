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
    assert!(flat(&ran.err).contains("end in .pdf"), "{}", ran.err);
}

#[test]
fn sound_is_as_long_as_its_bars() {
    let folder = Folder::with("a.bicinium", CLEAN);
    // Eight bars of two beats; with the bar before, nine.
    for (more, seconds) in [(&[][..], 16), (&["--tempo", "120", "--count-in", "--just"], 9)] {
        let write = ["export", "a.bicinium", "-o", "a.wav", "--force"];
        let ran = folder.run(&[&write[..], more].concat());
        assert_eq!((ran.code, ran.out.as_str()), (0, "a.wav written.\n"), "{}", ran.err);
        let bytes = std::fs::read(folder.path("a.wav")).unwrap();
        assert!(bytes.starts_with(b"RIFF"));
        assert_eq!(bytes.len(), 44 + 2 * 44_100 * seconds);
    }
}

#[test]
fn a_voice_is_heard_alone_or_softly() {
    let folder = Folder::with("a.bicinium", CLEAN);
    let loudest = |more: &[&str]| {
        let write = ["export", "a.bicinium", "-o", "a.wav", "--force", "--tempo", "240"];
        let ran = folder.run(&[&write[..], more].concat());
        assert_eq!(ran.code, 0, "{}", ran.err);
        let bytes = std::fs::read(folder.path("a.wav")).unwrap();
        let samples = bytes[44..].chunks(2).map(|two| i16::from_le_bytes([two[0], two[1]]));
        samples.map(i16::unsigned_abs).max().unwrap()
    };
    let (both, alone) = (loudest(&[]), loudest(&["--voice", "upper"]));
    let soft = loudest(&["--soft", "lower"]);
    assert!(alone < soft && soft < both, "{alone} {soft} {both}");
    let ran = folder.run(&["export", "a.bicinium", "-o", "b.wav", "--pitch", "10"]);
    assert_eq!(ran.code, 2);
    assert!(flat(&ran.err).contains("from 220 to 880"), "{}", ran.err);
    let ran = folder.run(&["export", "a.bicinium", "-o", "b.wav", "--tempo", "0"]);
    assert_eq!(ran.code, 2);
    assert!(flat(&ran.err).contains("from 10 to 400"), "{}", ran.err);
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
    let ran = folder.run(&["export", "a.bicinium", "-o", "none/b.pdf"]);
    assert!(flat(&ran.err).contains("none/b.pdf cannot be written: there is no such folder"));
    let ran = folder.run(&["export", "none.bicinium", "-o", "b.musicxml"]);
    assert!(flat(&ran.err).contains("none.bicinium cannot be read"), "{}", ran.err);
}

#[test]
fn pictures_and_words_hold_all_exercises_or_the_one_that_is_chosen() {
    let second = OCTAVES.replace("key", "// key").replace("exercise", "exercise \"Second\" //");
    let folder = Folder::with("a.bicinium", format!("{CLEAN}\n{second}"));
    for (name, begins) in [("a.svg", &b"<svg"[..]), ("a.png", b"\x89PNG"), ("a.pdf", b"%PDF")] {
        let ran = folder.run(&["export", "a.bicinium", "-o", name]);
        assert_eq!((ran.code, ran.out), (0, format!("{name} written.\n")), "{}", ran.err);
        assert!(std::fs::read(folder.path(name)).unwrap().starts_with(begins), "{name}");
    }
    let both = folder.text("a.svg");
    assert!(both.contains("id=\"x1-upper-0\"") && both.contains("id=\"x2-lower-64\""));
    let only = ["export", "a.bicinium", "-o", "b.svg", "--exercise", "2", "--width", "100"];
    assert_eq!(folder.run(&only).code, 0);
    let one = folder.text("b.svg");
    assert!(one.contains("width=\"100mm\"") && one.contains("id=\"x2-upper-64\""), "{one}");
    assert!(!one.contains("id=\"x1-"), "{one}");
}

#[test]
fn what_was_found_is_marked_in_a_picture_on_demand() {
    let folder = Folder::with("a.bicinium", OCTAVES);
    folder.run(&["export", "a.bicinium", "-o", "a.svg"]);
    assert!(!folder.text("a.svg").contains("class=\"mark\""));
    folder.run(&["export", "a.bicinium", "-o", "b.svg", "--show", "findings"]);
    let marked = folder.text("b.svg");
    assert!(marked.contains("class=\"mark\"") && marked.contains("aria-label=\"fault 1\""));
    assert!(!marked.contains("class=\"figure\""));
}

const IN_WORDS: &str = "\
Exercise 1
First species in C major, meter 2/2
Upper voice: soprano, cantus
Lower voice: tenor

Bar 1
  upper: not yet written
  lower: not yet written

Bar 2
  upper: E4, whole note
  lower: E3, whole note
  intervals: 8

Bar 3
  upper: F4, whole note
  lower: F3, whole note
  intervals: 8

Bar 4
  upper: E4, whole note
  lower: C4, whole note
  intervals: 3

Bar 5
  upper: not yet written
  lower: not yet written

1. fault, consecutive-perfects
   Octaves in a row: E4 over E3, then F4 over F3 in bar 3. Move one voice the other way, or to a third or sixth.
";

#[test]
fn an_exercise_is_told_in_words() {
    let folder = Folder::with("a.bicinium", OCTAVES);
    let ran = folder.run(&["export", "a.bicinium", "-o", "a.txt", "--show", "figures,findings"]);
    assert_eq!((ran.code, folder.text("a.txt").as_str()), (0, IN_WORDS));
}

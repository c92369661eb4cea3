//! What people see of a finding.

use crate::run::{Folder, OCTAVES, assert_fits};

/// What stands above the signs in the row below the line that begins like this.
fn marked(out: &str, line: &str) -> String {
    let mut rows = out.lines().skip_while(|row| !row.contains(line));
    let (text, signs) = (rows.next().unwrap(), rows.next().unwrap());
    let pairs = text.chars().zip(signs.chars());
    pairs.filter(|(_, sign)| *sign == '^').map(|(above, _)| above).collect()
}

#[test]
fn the_signs_stand_below_the_note() {
    let ran = Folder::with("a.bicinium", OCTAVES).run(&["check", "--level", "fault"]);
    assert_eq!(marked(&ran.out, "tenor"), "F3");
    assert!(ran.out.contains("  a.bicinium:6:28, exercise 1, bar 3, beat 1\n"), "{}", ran.out);
    assert_fits(&ran.out);
}

#[test]
fn characters_of_more_bytes_do_not_move_the_signs() {
    let sheet = OCTAVES.replace("| E3", "| E♭3 𝄫 | Ä").replace("E4 | F4", "E4 | | F4");
    let ran = Folder::with("a.bicinium", &sheet).run(&["check", "--level", "notation"]);
    assert_eq!(marked(&ran.out, "Ä"), "𝄫");
}

#[test]
fn either_end_of_line_will_do() {
    let unix = Folder::with("a.bicinium", OCTAVES).run(&["check"]);
    for end in ["\r\n", "\r"] {
        let other = Folder::with("a.bicinium", OCTAVES.replace('\n', end)).run(&["check"]);
        assert_eq!(other.out, unix.out, "{end:?}");
    }
}

#[test]
fn other_places_are_shown_with_what_is_there() {
    let ran = Folder::with("a.bicinium", OCTAVES).run(&["check", "--level", "fault"]);
    let row = ran.out.lines().find(|row| row.contains("--")).unwrap();
    assert!(row.trim_start_matches([' ', '|']).len() > "-- ".len(), "{row}");
}

#[test]
fn colours_are_only_for_those_who_see_them() {
    let folder = Folder::with("a.bicinium", OCTAVES);
    assert!(!folder.run(&["check"]).out.contains('\u{1b}'));
    let mut command = folder.command(&["check"]);
    let output = command.env("CLICOLOR_FORCE", "1").output().unwrap();
    let coloured = String::from_utf8(output.stdout).unwrap();
    assert!(coloured.contains("\u{1b}[31mfault"), "{coloured}");
}

#[test]
fn a_sheet_cannot_speak_to_the_terminal() {
    let sheet = OCTAVES.replace("| F3", "| F3\u{1b}[2J");
    let ran = Folder::with("a.bicinium", &sheet).run(&["check"]);
    assert_eq!(ran.code, 1);
    let stripped = ran.out.contains("F3\u{FFFD}[2J");
    assert!(stripped && !ran.out.contains('\u{1b}'), "{}", ran.out);
}

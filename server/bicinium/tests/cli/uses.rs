//! Sheets that take a cantus from others.

use crate::run::{Folder, Ran, flat};

const SONGS: &str = "\
cantus pilot-song
  key G major
  line | G4 | A4 | B4 | A4 | G4 |
";

fn exercise(path: &str, cantus: &str) -> String {
    format!(
        "use \"{path}\"\nkey G major\n\nexercise\n  species 1\n  \
         soprano cantus pilot-song | {cantus} |\n  bass counter | | | | | |\n"
    )
}

#[test]
fn a_cantus_of_another_sheet_is_known() {
    let folder = Folder::with("songs.bicinium", SONGS);
    folder.save("work/right.bicinium", exercise("../songs.bicinium", "G4 | A4 | B4 | A4 | G4"));
    folder.save("work/wrong.bicinium", exercise("../songs.bicinium", "G4 | A4 | C5 | A4 | G4"));
    assert_eq!(folder.run(&["check", "work/right.bicinium"]).code, 0);
    let ran = folder.run(&["check", "work/wrong.bicinium"]);
    assert!(ran.out.contains("fault: cantus-altered"), "{}", ran.out);
}

#[test]
fn paths_from_standard_input_begin_in_the_current_folder() {
    let folder = Folder::with("songs.bicinium", SONGS);
    let sheet = exercise("songs.bicinium", "G4 | A4 | C5 | A4 | G4");
    let ran = folder.run_on(&["check", "-"], sheet);
    assert!(ran.out.contains("cantus-altered"), "{}", ran.out);
}

#[test]
fn a_sheet_that_is_not_there_is_found() {
    let sheet = exercise("songs.bicinium", "G4 | A4 | B4 | A4 | G4");
    let ran = Folder::with("a.bicinium", &sheet).run(&["check"]);
    assert_eq!(ran.code, 1);
    assert!(ran.out.contains("notation: use\n"), "{}", ran.out);
    assert!(ran.out.contains("there is no such file"), "{}", ran.out);
}

#[test]
fn sheets_may_use_each_other() {
    let folder = Folder::with("a.bicinium", format!("use \"b.bicinium\"\n{SONGS}"));
    folder.save("b.bicinium", format!("use \"a.bicinium\"\n{}", SONGS.replace("pilot", "quay")));
    let ran = folder.run(&["check"]);
    assert_eq!(ran.code, 0, "{}", ran.out);
    let told = flat(&ran.out);
    assert!(told.contains("advice: use-circle a.bicinium:1:5"), "{told}");
    assert!(told.contains("These sheets go in a circle: b.bicinium uses this sheet."), "{told}");
    assert!(told.contains("advice: use-circle b.bicinium:1:5"), "{told}");
}

#[test]
fn a_longer_circle_is_told_with_all_its_sheets() {
    let uses = |next: &str| format!("use \"{next}\"\n");
    let folder = Folder::with("a.bicinium", uses("deep/b.bicinium"));
    folder.save("deep/b.bicinium", uses("../c.bicinium"));
    folder.save("c.bicinium", uses("a.bicinium") + &uses("d.bicinium"));
    folder.save("d.bicinium", uses("d.bicinium"));
    folder.save("outside-the-circle.bicinium", uses("a.bicinium"));
    let told = flat(&folder.run(&["check", "a.bicinium"]).out);
    let way = "b.bicinium uses c.bicinium, which uses this sheet.";
    assert!(told.contains(way), "{told}");
    let told = flat(&folder.run(&["check", "outside-the-circle.bicinium"]).out);
    assert!(!told.contains("circle: "), "{told}");
}

#[test]
fn a_sheet_that_uses_itself_is_told() {
    let folder = Folder::with("a.bicinium", format!("use \"./a.bicinium\"\n{SONGS}"));
    let ran = folder.run(&["check"]);
    assert_eq!(ran.code, 1);
    assert!(ran.out.contains("it is this very sheet"), "{}", ran.out);
    assert!(!ran.out.contains("cantus-twice"), "{}", ran.out);
}

const TAKES: &str = "use \"../given/songs.bicinium\"\n\nexercise\n  alto cantus pilot-song | G4 | A4 | B4 | A4 | G4 |\n";

/// Checks a sheet in the folder `home`, from there.
fn at_home(folder: &Folder, options: &[&str]) -> Ran {
    let mut command = folder.command(&["check"]);
    let output = command.args(options).current_dir(folder.path("home")).output().unwrap();
    Ran {
        code: output.status.code().unwrap(),
        out: flat(&String::from_utf8(output.stdout).unwrap()),
        err: String::from_utf8(output.stderr).unwrap(),
    }
}

#[test]
fn what_lies_outside_the_workspace_is_used_only_if_it_is_allowed() {
    let folder = Folder::with("home/mine.bicinium", TAKES);
    folder.save("given/songs.bicinium", SONGS);
    let ran = at_home(&folder, &[]);
    assert_eq!(ran.code, 1);
    assert!(ran.out.contains("notation: use mine.bicinium:1:5"), "{}", ran.out);
    assert!(ran.out.contains("it lies outside the workspace"), "{}", ran.out);
    let ran = at_home(&folder, &["--may-use", "../given"]);
    assert_eq!((ran.code, ran.out.contains("notation")), (0, false), "{}", ran.out);
    let ran = at_home(&folder, &["--may-use", "../elsewhere"]);
    assert_eq!(ran.code, 1, "{}", ran.out);
    // A folder that is named is part of the workspace, and so is a whole checkout.
    assert_eq!(at_home(&folder, &[".."]).code, 0);
    folder.save(".git/HEAD", "");
    assert_eq!(at_home(&folder, &[]).code, 0);
}

#[test]
fn of_a_sheet_outside_nothing_is_told_not_even_whether_it_is_there() {
    let folder = Folder::with("home/mine.bicinium", TAKES);
    let without = at_home(&folder, &[]).out;
    folder.save("given/songs.bicinium", SONGS);
    assert_eq!(without, at_home(&folder, &[]).out);
}

#[test]
fn odd_paths_are_used_like_any_others() {
    for name in ["two words.bicinium", "déjà-vu.bicinium", "a'b&c;$d.bicinium", "%41.bicinium"] {
        let folder = Folder::with(name, SONGS);
        folder.save("mine.bicinium", TAKES.replace("../given/songs.bicinium", name));
        let ran = folder.run(&["check", "mine.bicinium"]);
        assert_eq!(ran.code, 0, "{name}: {}", ran.out);
    }
}

#[test]
fn what_cannot_be_read_is_told_at_the_use_and_nothing_else_is_lost() {
    let folder = Folder::with("songs.bicinium", SONGS);
    folder.save("folder.bicinium/inside", "");
    folder.save("latin.bicinium", b"// caf\xe9\n");
    folder.save("huge.bicinium", "");
    let huge = std::fs::File::options().write(true).open(folder.path("huge.bicinium")).unwrap();
    huge.set_len(1 << 30).unwrap();
    let names = ["folder", "latin", "huge", "none", "songs"];
    let uses: String = names.map(|name| format!("use \"{name}.bicinium\"\n")).concat();
    folder.save(
        "mine.bicinium",
        format!("{uses}exercise\n  alto cantus pilot-song | G4 | A4 | B4 | A4 | G4 |\n"),
    );
    let ran = folder.run(&["check", "mine.bicinium"]);
    let told = flat(&ran.out);
    for said in [
        "The sheet folder.bicinium cannot be used: it is not a file.",
        "The sheet latin.bicinium cannot be used: it is not plain text; open it in an editor and \
         save it as UTF-8.",
        "The sheet huge.bicinium cannot be used: it is too long; it may have 16384 kB.",
        "The sheet none.bicinium cannot be used: there is no such file.",
    ] {
        assert!(told.contains(said), "{said}\n{told}");
    }
    assert_eq!((ran.code, told.matches("notation: use ").count()), (1, 4), "{told}");
    assert!(!told.contains("cantus-unknown"), "{told}");
}

#[cfg(unix)]
mod unix {
    use std::ffi::OsStr;
    use std::os::unix::ffi::OsStrExt;
    use std::os::unix::fs::symlink;

    use super::*;

    #[test]
    fn links_are_followed_before_it_is_said_where_they_lead() {
        for (to, reason) in [
            ("../home/own.bicinium", None),
            ("../given/songs.bicinium", Some("it lies outside the workspace")),
            ("../given/nothing.bicinium", Some("it is a link that leads nowhere")),
            ("songs.bicinium", Some("it is a link that cannot be followed to its end")),
        ] {
            let folder = Folder::with("given/songs.bicinium", SONGS);
            folder.save("home/own.bicinium", SONGS);
            folder.save("home/mine.bicinium", TAKES.replace("../given/", ""));
            symlink(to, folder.path("home/songs.bicinium")).unwrap();
            let ran = at_home(&folder, &["mine.bicinium"]);
            assert_eq!(ran.code, i32::from(reason.is_some()), "{to}: {}", ran.out);
            assert!(ran.out.contains(reason.unwrap_or_default()), "{to}: {}", ran.out);
        }
    }

    #[test]
    fn a_folder_behind_a_link_is_followed_too() {
        let folder = Folder::with("given/songs.bicinium", SONGS);
        folder.save("home/mine.bicinium", TAKES.replace("../given/", "near/"));
        symlink("../given", folder.path("home/near")).unwrap();
        assert!(at_home(&folder, &[]).out.contains("it lies outside the workspace"));
        assert_eq!(at_home(&folder, &["--may-use", "near"]).code, 0);
    }

    #[test]
    fn sheets_of_every_name_are_checked_and_broken_links_cost_no_other() {
        let folder = Folder::with("good.bicinium", SONGS);
        let odd = folder.path("").join(OsStr::from_bytes(b"n\xff\x1b[2Jame.bicinium"));
        std::fs::write(odd, "exercise\n  alto | c4 |\n").unwrap();
        symlink("nothing", folder.path("dangling.bicinium")).unwrap();
        symlink("round.bicinium", folder.path("round.bicinium")).unwrap();
        std::fs::create_dir(folder.path("folder.bicinium")).unwrap();
        let ran = folder.run(&["check"]);
        assert_eq!(ran.code, 2);
        assert!(ran.out.contains("letter-case"), "{}", ran.out);
        assert!(!ran.out.contains('\u{1b}'), "{:?}", ran.out);
        let told = "bicinium: dangling.bicinium cannot be read: it is a link that leads nowhere.\n\
                    bicinium: round.bicinium cannot be read: it is a link that cannot be followed to \
                    its end.\n";
        assert_eq!(ran.err, told);
    }
}

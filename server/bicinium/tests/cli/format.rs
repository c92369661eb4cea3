//! Laying out sheets.

use crate::run::{CLEAN, Folder};

/// The same music in another layout.
fn untidy() -> String {
    CLEAN.replace("  | G4      |", " |G4|").replace("  species", "species")
}

#[test]
fn a_sheet_is_laid_out() {
    let folder = Folder::with("a.bicinium", untidy());
    let ran = folder.run(&["format"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    assert_eq!(ran.out, "a.bicinium\n1 sheet: 1 laid out anew.\n");
    assert_eq!(folder.text("a.bicinium"), CLEAN);
    let ran = folder.run(&["format"]);
    assert_eq!((ran.code, ran.out.as_str()), (0, "1 sheet: 0 laid out anew.\n"));
}

#[test]
fn a_check_names_the_sheets_and_writes_nothing() {
    let folder = Folder::with("a.bicinium", untidy());
    folder.save("b.bicinium", CLEAN);
    let ran = folder.run(&["format", "--check"]);
    assert_eq!(ran.code, 1);
    assert_eq!(ran.out, "a.bicinium\n2 sheets: 1 to be laid out.\n");
    assert_eq!(folder.text("a.bicinium"), untidy());
    folder.run(&["format"]);
    assert_eq!(folder.run(&["format", "--check"]).code, 0);
}

#[test]
fn standard_input_goes_to_standard_output() {
    let ran = Folder::new().run_on(&["format", "-"], untidy());
    assert_eq!((ran.code, ran.out.as_str(), ran.err.as_str()), (0, CLEAN, ""));
    let ran = Folder::new().run_on(&["format", "-"], CLEAN);
    assert_eq!((ran.code, ran.out.as_str()), (0, CLEAN));
    let ran = Folder::new().run_on(&["format", "--check", "-"], untidy());
    assert_eq!((ran.code, ran.out.as_str()), (1, "-\n"));
}

#[test]
fn line_ends_stay() {
    let folder = Folder::with("a.bicinium", untidy().replace('\n', "\r\n"));
    folder.run(&["format"]);
    assert_eq!(folder.text("a.bicinium"), CLEAN.replace('\n', "\r\n"));
}

#[test]
fn nothing_is_left_beside_the_sheet() {
    let folder = Folder::with("a.bicinium", untidy());
    folder.run(&["format"]);
    assert_eq!(std::fs::read_dir(folder.path("")).unwrap().count(), 1);
}

#[test]
fn what_cannot_be_done_is_told_and_the_rest_is_done() {
    let folder = Folder::with("a.bicinium", b"\xff");
    folder.save("b.bicinium", untidy());
    let mut permissions = std::fs::metadata(folder.path("b.bicinium")).unwrap().permissions();
    permissions.set_readonly(true);
    std::fs::set_permissions(folder.path("b.bicinium"), permissions).unwrap();
    folder.save("c.bicinium", untidy());
    let ran = folder.run(&["format"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("a.bicinium cannot be read"), "{}", ran.err);
    assert!(ran.err.contains("b.bicinium cannot be written: it is protected"), "{}", ran.err);
    assert_eq!(folder.text("b.bicinium"), untidy());
    assert_eq!(folder.text("c.bicinium"), CLEAN);
}

#[cfg(unix)]
#[test]
fn permissions_and_links_stay() {
    use std::os::unix::fs::PermissionsExt;
    let folder = Folder::with("real.bicinium", untidy());
    let mode = std::fs::Permissions::from_mode(0o640);
    std::fs::set_permissions(folder.path("real.bicinium"), mode).unwrap();
    std::os::unix::fs::symlink("real.bicinium", folder.path("link.bicinium")).unwrap();
    assert_eq!(folder.run(&["format", "link.bicinium"]).code, 0);
    assert_eq!(folder.text("real.bicinium"), CLEAN);
    let real = std::fs::metadata(folder.path("real.bicinium")).unwrap();
    assert_eq!(real.permissions().mode() & 0o777, 0o640);
    assert!(std::fs::symlink_metadata(folder.path("link.bicinium")).unwrap().is_symlink());
}

//! The picture in the README: it shows what the binary prints. `BICINIUM_DRAW=1` draws it anew.

use std::path::Path;

use crate::run::Folder;
use crate::screen::picture;

const NAME: &str = "harbour.bicinium";

#[test]
fn the_picture_shows_what_is_printed() {
    let assets = Path::new(env!("CARGO_MANIFEST_DIR")).join("assets");
    let folder = Folder::with(NAME, std::fs::read(assets.join(NAME)).unwrap());
    let arguments = ["check", NAME];
    let output = folder.command(&arguments).env("CLICOLOR_FORCE", "1").output().unwrap();
    let printed = String::from_utf8(output.stdout).unwrap();
    assert!(printed.contains("\u{1b}["), "no colours: {printed}");
    let drawn = picture(&format!("bicinium {}", arguments.join(" ")), &printed);
    let file = assets.join("check.svg");
    if std::env::var_os("BICINIUM_DRAW").is_some() {
        std::fs::write(&file, &drawn).unwrap();
    }
    let kept = std::fs::read_to_string(&file).unwrap().replace("\r\n", "\n");
    assert!(kept == drawn, "the picture is out of date: draw it anew with BICINIUM_DRAW=1");
}

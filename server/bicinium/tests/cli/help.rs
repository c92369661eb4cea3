//! What is said to those who ask how.

use crate::run::{assert_fits, run};

const COMMANDS: [&str; 14] = [
    "check",
    "compare",
    "compose-cantus",
    "import",
    "format",
    "realize",
    "explain",
    "export",
    "mark",
    "new",
    "rules",
    "tour",
    "lsp",
    "replay",
];

#[test]
fn help_names_every_command() {
    let ran = run(&["--help"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    for command in COMMANDS {
        assert!(ran.out.lines().any(|line| line.trim_start().starts_with(command)), "{command}");
        let ran = run(&[command, "--help"]);
        assert_eq!(ran.code, 0);
        assert!(ran.out.contains(&format!("Usage: bicinium {command}")), "{}", ran.out);
    }
}

#[test]
fn help_fits_on_a_screen() {
    let pages = COMMANDS.iter().map(|command| run(&[command, "--help"]).out);
    for page in pages.chain([run(&["--help"]).out]) {
        // Empty lines between paragraphs are indented by the library.
        let page: Vec<_> = page.lines().map(str::trim_end).collect();
        assert_fits(&page.join("\n"));
    }
}

#[test]
fn the_version_is_that_of_the_package() {
    let ran = run(&["--version"]);
    assert_eq!(ran.code, 0);
    assert_eq!(ran.out, format!("bicinium {}\n", env!("CARGO_PKG_VERSION")));
}

#[test]
fn what_is_not_understood_ends_with_2() {
    for arguments in [&[][..], &["chek"], &["check", "--level", "bad"], &["explain"]] {
        let ran = run(arguments);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{arguments:?}");
        assert!(!ran.err.is_empty());
    }
}

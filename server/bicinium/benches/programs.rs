//! What the program costs as a whole: to start, and to check a folder of sheets with one core and with all
//! of them. Good for ratios within one run.

#![allow(missing_docs)]

#[path = "../../../tests/texts/mod.rs"]
#[allow(dead_code)]
mod texts;

use std::path::Path;
use std::process::{Command, Stdio};

use divan::{Bencher, counter::ItemsCount};
use tempfile::TempDir;

fn main() {
    divan::main();
}

const PROGRAM: &str = env!("CARGO_BIN_EXE_bicinium");
const SHEETS: usize = 100;
const EXERCISES_OF_SHEET: usize = 20;

/// Which cores a program may use.
#[derive(Clone, Copy, Debug)]
enum Cores {
    One,
    All,
}

impl Cores {
    fn command(self) -> Command {
        match self {
            Self::One => {
                let mut command = Command::new("taskset");
                command.args(["--cpu-list", "0", PROGRAM]);
                command
            }
            Self::All => Command::new(PROGRAM),
        }
    }
}

#[divan::bench(sample_count = 50)]
fn start_up(bencher: Bencher) {
    bencher.bench(|| run(Cores::All.command().arg("--version")));
}

#[divan::bench(args = [Cores::One, Cores::All], sample_count = 10)]
fn check_of_a_folder(bencher: Bencher, cores: Cores) {
    let folder = folder();
    let exercises = ItemsCount::new(SHEETS * EXERCISES_OF_SHEET);
    let check = |path: &Path| run(cores.command().arg("check").arg(path));
    bencher.counter(exercises).bench(|| check(folder.path()));
}

/// A folder of sheets.
fn folder() -> TempDir {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let text = texts::sheet("modal", EXERCISES_OF_SHEET);
    for number in 0..SHEETS {
        let path = folder.path().join(format!("{number}.bicinium"));
        std::fs::write(path, &text).expect("a sheet can be written");
    }
    folder
}

/// Runs a program to its end; what it finds is no matter here, only that it has run.
fn run(command: &mut Command) {
    let status = command.stdout(Stdio::null()).stderr(Stdio::null()).status();
    let code = status.expect("the program starts").code();
    assert!(matches!(code, Some(0 | 1)), "the program ended with {code:?}");
}

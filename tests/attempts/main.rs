//! A short run of everything that is fuzzed at length: the inputs that are kept, every sheet of the
//! repository, and inputs near them, made by chance with a fixed seed. `tests/fuzz` has the targets that look for inputs
//! by coverage.

#![allow(clippy::unwrap_used)]

#[path = "../fuzz/attempts/lib.rs"]
mod attempts;
mod near;

use std::env;
use std::ffi::OsStr;
use std::fs;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};

use self::attempts::{ALL, Attempt};

/// How many inputs are made from those that are there, if `BICINIUM_ATTEMPTS` does not say so.
const MADE: u64 = 120;

fn kept(name: &str) -> Vec<Vec<u8>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz/corpus").join(name);
    let mut files: Vec<_> =
        fs::read_dir(folder).unwrap().map(|file| file.unwrap().path()).collect();
    files.sort();
    files.into_iter().map(|file| fs::read(file).unwrap()).collect()
}

/// Every file below a folder that ends in a way.
fn files(folder: &Path, ends_in: &str, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().and_then(OsStr::to_str).unwrap_or_default();
        if path.is_dir() && !matches!(name, "target" | "node_modules" | ".git") {
            files(&path, ends_in, found);
        } else if name.ends_with(ends_in) {
            found.push(path);
        }
    }
}

/// What an attempt begins with: what is kept for it, and for those that read sheets the sheets.
fn seeds(name: &str) -> Vec<Vec<u8>> {
    let mut seeds = kept(name);
    if !matches!(name, "import" | "messages" | "rulebook") {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap();
        let mut sheets = Vec::new();
        files(root, ".bicinium", &mut sheets);
        sheets.sort();
        let step = sheets.len().div_ceil(60);
        seeds.extend(sheets.into_iter().step_by(step).map(|sheet| fs::read(sheet).unwrap()));
    }
    seeds
}

fn run(name: &str, attempt: Attempt) {
    let seeds = seeds(name);
    assert!(!seeds.is_empty(), "nothing to begin with for {name}");
    let wanted = env::var("BICINIUM_ATTEMPTS").ok().and_then(|number| number.parse().ok());
    let made = (0..wanted.unwrap_or(MADE)).map(|number| near::input(&seeds, number));
    for input in seeds.iter().cloned().chain(made) {
        let ended = catch_unwind(AssertUnwindSafe(|| attempt(&input)));
        assert!(ended.is_ok(), "{name} does not keep its promise with\n{}", input.escape_ascii());
    }
}

/// The attempt of a name.
fn attempt(name: &str) {
    let (name, attempt) = ALL.into_iter().find(|known| known.0 == name).unwrap();
    run(name, attempt);
}

macro_rules! attempts {
    ($($name:ident),*) => {
        $(#[test] fn $name() { attempt(stringify!($name)); })*

        #[test]
        fn none_is_left_out() {
            assert_eq!([$(stringify!($name)),*], ALL.map(|known| known.0));
        }
    };
}

attempts!(
    edits, fixes, formatter, import, judge, lexer, lowering, messages, parser, reading, realizer,
    rulebook
);

//! The folder of a very large class. Chance comes out the same every time. It must not know what is
//! measured.

use std::fs;
use std::path::Path;

/// The class that the hand-ins are made from.
const CLASS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/coursework");
/// What belongs to the class beside its hand-ins.
const AROUND: [&str; 5] = [
    "assignment.bicinium",
    "ropewalk.rulebook.toml",
    "ropewalk.rubric.toml",
    "shared/songs.bicinium",
    "shared/dances.bicinium",
];
/// The letters of notes.
const LETTERS: &[u8] = b"ABCDEFG";

/// Makes the folder with so many hand-ins.
pub fn make(folder: &Path, count: usize) {
    for inside in ["shared", "hand-ins"] {
        fs::create_dir_all(folder.join(inside)).expect("a folder can be made");
    }
    for name in AROUND {
        fs::copy(Path::new(CLASS).join(name), folder.join(name)).expect("it can be copied");
    }
    let models = models();
    for number in 0..count {
        let path = folder.join(format!("hand-ins/{number:06}.bicinium"));
        let text = if number == count / 2 {
            vec![0xff; 4_000]
        } else {
            varied(&models[number % models.len()], number).into_bytes()
        };
        fs::write(path, text).expect("a hand-in can be written");
    }
}

/// The hand-ins of the class that are text.
fn models() -> Vec<String> {
    let entries = fs::read_dir(Path::new(CLASS).join("hand-ins")).expect("the class is there");
    let mut paths: Vec<_> = entries.map(|entry| entry.expect("it can be listed").path()).collect();
    paths.sort();
    paths.iter().filter_map(|path| fs::read_to_string(path).ok()).collect()
}

/// A hand-in under another name, with one note a step off.
fn varied(model: &str, number: usize) -> String {
    let signed = model.lines().map(|line| {
        if line.starts_with("by ") { format!("by \"Student {number}\"") } else { line.to_owned() }
    });
    let mut bytes = (signed.collect::<Vec<_>>().join("\n") + "\n").into_bytes();
    let is_note = |at: &usize| {
        LETTERS.contains(&bytes[*at])
            && bytes.get(at + 1).is_some_and(u8::is_ascii_digit)
            && bytes[at - 1] == b' '
    };
    let notes: Vec<_> = (1..bytes.len()).filter(is_note).collect();
    if let Some(at) = notes.get(number.wrapping_mul(7_919) % notes.len().max(1)) {
        let letter = LETTERS.iter().position(|letter| *letter == bytes[*at]).unwrap_or(0);
        bytes[*at] = LETTERS[(letter + 1) % LETTERS.len()];
    }
    String::from_utf8(bytes).expect("letters stay letters")
}

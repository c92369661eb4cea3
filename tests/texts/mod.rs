//! Texts of any length for benches: the same bars again and again. They must not be tuned to what
//! is measured.

/// The notes of the upper and the lower voice, bar by bar.
const UPPER: [&str; 11] = ["A4", "A4", "G4", "A4", "B4", "C5", "C5", "B4", "A4", "C#5", "D5"];
const LOWER: [&str; 11] = ["D4", "F4", "E4", "D4", "G4", "F4", "A4", "G4", "F4", "E4", "D4"];
const BARS_OF_SYSTEM: usize = 6;

/// One exercise of so many bars under a rulebook.
pub fn exercise(book: &str, bars: usize) -> String {
    let head =
        format!("exercise \"of {bars} bars\"\n  rulebook {book}\n  key D dorian\n  species 1\n");
    let starts = (0..bars).step_by(BARS_OF_SYSTEM);
    let systems = starts.map(|start| system(start, (start + BARS_OF_SYSTEM).min(bars)));
    std::iter::once(head).chain(systems).collect()
}

/// A sheet of so many small exercises.
pub fn sheet(book: &str, exercises: usize) -> String {
    (0..exercises).map(|_| exercise(book, UPPER.len())).collect()
}

/// Where the upper voice has one of its `G4` nearest behind a part of the text, or before it.
pub fn note_near(text: &str, part: f64) -> usize {
    let is_meant = |at: &usize| {
        text[..*at].rfind('\n').is_some_and(|line| text[line..].starts_with("\n  soprano"))
    };
    let places: Vec<_> = text.match_indices("G4").map(|(at, _)| at).filter(is_meant).collect();
    let last = places.len() - 1;
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, clippy::cast_precision_loss)]
    let index = (last as f64 * part) as usize;
    places[index.min(last)]
}

fn system(start: usize, end: usize) -> String {
    let row = |notes: &[&str; 11]| {
        let notes: Vec<_> = (start..end).map(|index| notes[index % notes.len()]).collect();
        notes.join(" | ")
    };
    format!("\n  soprano counter | {} |\n  alto cantus | {} |\n", row(&UPPER), row(&LOWER))
}

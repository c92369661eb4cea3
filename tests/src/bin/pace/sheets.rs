//! The texts that are typed in. Every fifty lines have one finding; one more comes and goes with
//! the edit. It must not know who reads them.

use super::phrases::Flow;

/// A text and one place in it that is edited.
pub(crate) struct Typed {
    pub(crate) text: String,
    /// How many findings it has before the edit.
    pub(crate) findings: usize,
    /// The line and the columns of the place, counted from 0.
    pub(crate) line: usize,
    pub(crate) columns: (usize, usize),
    /// What stands there, and what is put there by turns.
    pub(crate) faces: [&'static str; 2],
}

const LINES_OF_EXERCISE: usize = 10;
const LINES_TO_A_FINDING: usize = 50;

const BARS_OF_SYSTEM: usize = 6;
const BARS_OF_EXERCISE: usize = 11;

/// A sheet of small exercises.
pub(crate) fn sheet(lines: usize) -> Typed {
    let exercises = lines / LINES_OF_EXERCISE;
    let every = LINES_TO_A_FINDING / LINES_OF_EXERCISE;
    let text = (0..exercises).map(|number| small_exercise(number, number % every == 2)).collect();
    let (line, from) =
        (exercises / 2 * LINES_OF_EXERCISE + 5, "  soprano counter | A4 | A4 | ".len());
    Typed {
        text,
        findings: exercises.div_ceil(every),
        line,
        columns: (from, from + 2),
        faces: ["G4", Flow::Rough.wrong()],
    }
}

fn small_exercise(number: usize, is_wrong: bool) -> String {
    let [mut upper, lower] = Flow::Rough.voices(BARS_OF_EXERCISE);
    if is_wrong {
        upper[2] = Flow::Rough.wrong();
    }
    let (first, second) = (bars(&upper[..BARS_OF_SYSTEM]), bars(&upper[BARS_OF_SYSTEM..]));
    let (under, after) = (bars(&lower[..BARS_OF_SYSTEM]), bars(&lower[BARS_OF_SYSTEM..]));
    format!(
        "exercise \"No. {number}\"\n  rulebook modal\n  key D dorian\n  species 1\n\n\
         \x20 soprano counter {first}\n  alto cantus {under}\n\n  soprano {second}\n  alto {after}\n"
    )
}

/// One exercise of many bars, edited in one of them; bars are counted from 1.
pub(crate) fn exercise(rulebook: &str, flow: Flow, bars_in_all: usize, bar: usize) -> Typed {
    let [upper, lower] = flow.voices(bars_in_all);
    let mut text =
        format!("exercise \"long\"\n  rulebook {rulebook}\n  key D dorian\n  species 1\n");
    let (mut line, mut columns) = (0, (0, 0));
    let systems = upper.chunks(BARS_OF_SYSTEM).zip(lower.chunks(BARS_OF_SYSTEM));
    for (number, (upper, lower)) in systems.enumerate() {
        if let Some(note) =
            (bar - 1).checked_sub(number * BARS_OF_SYSTEM).and_then(|at| upper.get(at))
        {
            let before = &upper[..(bar - 1) % BARS_OF_SYSTEM];
            line = text.matches('\n').count() + 1;
            let from =
                "  soprano counter | ".len() + before.iter().map(|it| it.len() + 3).sum::<usize>();
            columns = (from, from + note.len());
        }
        text.extend(["\n  soprano counter ", &bars(upper), "\n  alto cantus ", &bars(lower), "\n"]);
    }
    let faces = [upper[bar - 1], flow.wrong()];
    Typed { text, findings: 0, line, columns, faces }
}

fn bars(notes: &[&str]) -> String {
    format!("| {} |", notes.join(" | "))
}

/// A script of another language, with as many lines and findings.
pub(crate) fn script(lines: usize) -> Typed {
    let line = |number: usize| match number % LINES_TO_A_FINDING {
        20 => format!("total_{number} = missing_{number}\n"),
        _ => format!("value_{number} = [{number}, {number} + 1]\n"),
    };
    let edited = lines / LINES_TO_A_FINDING / 2 * LINES_TO_A_FINDING + 1;
    let before = format!("value_{edited} = [{edited}, {edited} + ").len();
    Typed {
        text: (0..lines).map(line).collect(),
        findings: lines.div_ceil(LINES_TO_A_FINDING),
        line: edited,
        columns: (before, before + 1),
        faces: ["1", "z"],
    }
}

impl Typed {
    /// The columns of the place when one of the faces stands there.
    pub(crate) fn end_with(&self, face: usize) -> usize {
        self.columns.0 + self.faces[face % 2].len()
    }
}

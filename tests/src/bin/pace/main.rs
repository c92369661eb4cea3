//! How fast a language server answers, seen from where an editor sits: the real binary over standard
//! input and output, beside a server that only echoes and, if it is given, a linter of another
//! language as a yardstick. All figures come from one run on one machine and are good for ratios.
//!
//! `cargo build --release -p bicinium -p bicinium-tests`, then
//! `target/release/pace [--yardstick RUFF] [--lines 100,10000] [--binary BICINIUM]`
//!
//! It must not know how any of the servers works.

mod echo;
mod figures;
mod line;
mod phrases;
mod scenario;
mod sheets;
mod subject;

use std::path::PathBuf;

use self::figures::Table;
use self::sheets::Typed;
use self::subject::Subject;

/// Lengths of sheets in lines, if none are named.
const LENGTHS: [usize; 4] = [100, 1_000, 10_000, 100_000];

/// What is to be measured.
struct Wanted {
    lengths: Vec<usize>,
    yardstick: Option<PathBuf>,
    binary: Option<PathBuf>,
}

fn main() {
    let mut arguments = std::env::args().skip(1);
    if let Some(findings) = arguments.next().filter(|it| it == "echo").and(arguments.next()) {
        return echo::serve(findings.parse().expect("a number of findings"));
    }
    let wanted = Wanted::from_arguments();
    let table = Table::new();
    for subject in wanted.subjects() {
        for &lines in &wanted.lengths {
            scenario::whole_sheet(&subject, &subject.sheet(lines), &table);
        }
        for text in subject.long_texts() {
            scenario::typing_in(&subject, &text, &table);
        }
    }
}

impl Wanted {
    fn from_arguments() -> Self {
        let mut wanted = Wanted { lengths: LENGTHS.to_vec(), yardstick: None, binary: None };
        let mut arguments = std::env::args().skip(1);
        while let (Some(name), Some(value)) = (arguments.next(), arguments.next()) {
            match name.as_str() {
                "--lines" => {
                    let lengths = value.split(',').map(|it| it.parse().expect("a number of lines"));
                    wanted.lengths = lengths.collect();
                }
                "--yardstick" => wanted.yardstick = Some(value.into()),
                "--binary" => wanted.binary = Some(value.into()),
                _ => panic!("there is no option {name}"),
            }
        }
        wanted
    }

    fn subjects(&self) -> Vec<Subject> {
        let own = std::env::current_exe().expect("a running program has a path");
        let binary = self.binary.clone().unwrap_or_else(|| own.with_file_name("bicinium"));
        let yardstick = self.yardstick.iter().flat_map(|path| Subject::yardstick(path));
        [Subject::echo(), Subject::pushing(&binary), Subject::pulling(&binary)]
            .into_iter()
            .chain(yardstick)
            .collect()
    }
}

/// A text with a name for the table.
struct Named {
    name: String,
    text: Typed,
}

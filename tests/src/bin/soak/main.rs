//! A long time at the keyboard: types into the real binary over standard input and output, takes back, asks all that an
//! editor asks, opens and closes sheets, has the page of the score drawn, and notes every few seconds what the server
//! takes of the machine. In the end what is found in every sheet has to be what a fresh server finds.
//!
//! `cargo build --release -p bicinium -p bicinium-tests`, then
//! `target/release/soak FOLDER [--minutes 60] [--seed 1725] [--binary BICINIUM]`
//! leaves `soak.csv` and `soak.svg` in the folder.
//!
//! It must not know how the server works.

mod desk;
mod log;
mod page;
mod picture;
mod sheets;
mod story;

use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::Duration;

use self::log::Log;
use self::story::Story;

/// What is wanted.
struct Wanted {
    folder: PathBuf,
    length: Duration,
    seed: u64,
    binary: PathBuf,
}

fn main() -> ExitCode {
    let wanted = Wanted::from_arguments();
    std::fs::create_dir_all(&wanted.folder).expect("the folder can be made");
    let mut log = Log::begin(&wanted.folder.join("soak.csv"));
    let mut story = Story::begin(&wanted.binary, wanted.seed);
    story.go_on(wanted.length, &mut log);
    let picture = picture::of(log.samples());
    std::fs::write(wanted.folder.join("soak.svg"), picture).expect("the picture can be written");
    let complaints = story.end(&wanted.binary);
    tell(&log, &complaints);
    if complaints.is_empty() { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

#[allow(clippy::print_stdout)]
fn tell(log: &Log, complaints: &[String]) {
    println!("{log}");
    for complaint in complaints {
        println!("{complaint}");
    }
}

impl Wanted {
    fn from_arguments() -> Self {
        let own = std::env::current_exe().expect("a running program has a path");
        let mut arguments = std::env::args().skip(1);
        let folder = arguments.next().expect("a folder for what comes out");
        let mut wanted = Wanted {
            folder: Path::new(&folder).to_owned(),
            length: minutes("60"),
            seed: 1_725,
            binary: own.with_file_name("bicinium"),
        };
        while let (Some(name), Some(value)) = (arguments.next(), arguments.next()) {
            match name.as_str() {
                "--minutes" => wanted.length = minutes(&value),
                "--seed" => wanted.seed = value.parse().expect("a number"),
                "--binary" => wanted.binary = value.into(),
                _ => panic!("there is no option {name}"),
            }
        }
        wanted
    }
}

fn minutes(number: &str) -> Duration {
    Duration::from_secs_f64(60.0 * number.parse::<f64>().expect("a number of minutes"))
}

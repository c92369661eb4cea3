//! The sheets that are typed in: a day's work and a term's. It must not know what is typed.

use bicinium_tests::writer::MORNING;

/// How many exercises the long sheet has.
const EXERCISES: usize = 200;

/// A sheet by its address, with the text that it begins with.
pub(crate) struct Begun {
    pub(crate) uri: String,
    pub(crate) text: String,
}

/// The sheets that stay, one with a few exercises and one with many.
pub(crate) fn kept() -> Vec<Begun> {
    let short = Begun { uri: address("mill"), text: MORNING.to_owned() };
    vec![short, Begun { uri: address("term"), text: long() }]
}

/// A sheet that is looked at once.
pub(crate) fn passing(number: usize) -> Begun {
    Begun { uri: address(&format!("passing-{number}")), text: MORNING.to_owned() }
}

fn address(name: &str) -> String {
    format!("file:///soak/{name}.bicinium")
}

fn long() -> String {
    let (head, exercises) = MORNING.split_at(MORNING.find("exercise").expect("it has exercises"));
    let closed = exercises.replace('?', "C3");
    let all = (0..EXERCISES / 2).map(|_| closed.as_str());
    std::iter::once(head).chain(all).collect::<Vec<_>>().join("\n")
}

//! Text with the colour codes of a terminal, cut into runs of one look. It must not know what the
//! text says, nor how a look is drawn.

/// Text on one line that looks the same throughout.
#[derive(Debug, Default, PartialEq, Eq)]
pub struct Run {
    pub text: String,
    /// What was switched on, as a terminal numbers it: 1 strong, 2 faint, 31 and up colours.
    pub look: Vec<u8>,
}

/// The runs of every line.
pub fn lines(text: &str) -> Vec<Vec<Run>> {
    let mut look = Vec::new();
    text.lines().map(|line| runs(line, &mut look)).collect()
}

fn runs(line: &str, look: &mut Vec<u8>) -> Vec<Run> {
    let mut parts = line.split("\u{1b}[");
    let mut runs = vec![Run { text: parts.next().unwrap().to_owned(), look: look.clone() }];
    for part in parts {
        let (codes, text) = part.split_once('m').expect("a code that changes the look");
        for code in codes.split(';') {
            switch(code.parse().expect("a code is a number"), look);
        }
        runs.push(Run { text: text.to_owned(), look: look.clone() });
    }
    runs.retain(|run| !run.text.is_empty());
    runs
}

fn switch(code: u8, look: &mut Vec<u8>) {
    match code {
        0 => look.clear(),
        code => look.push(code),
    }
}

#[test]
fn a_look_lasts_until_it_is_switched_off() {
    let run = |text: &str, look: &[u8]| Run { text: text.to_owned(), look: look.to_vec() };
    let found = lines("a\u{1b}[1m\u{1b}[31mb\u{1b}[0mc\n\u{1b}[2md\ne");
    assert_eq!(found[0], [run("a", &[]), run("b", &[1, 31]), run("c", &[])]);
    assert_eq!(found[1..], [vec![run("d", &[2])], vec![run("e", &[2])]]);
}

//! A part as a voice: bar after bar, ties joined. Knows no other part.

use bicinium_analysis::judge::Heard;
use bicinium_theory::{Meter, Register};

use super::Voice;
use super::document::Node;
use super::heading::first_attributes;
use super::measure::{Bar, Measures, Sung};
use super::remarks::Remarks;

/// How many bars are read.
const MOST_BARS: usize = 5_000;

/// The voice of a part, and how many bars it has.
pub(super) fn of(part: &Node, name: &str, meter: Meter, remarks: &mut Remarks) -> (Voice, u32) {
    let (mut notes, mut blank): (Vec<Heard>, Vec<u32>) = (Vec::new(), Vec::new());
    let mut measures = Measures::new(name, meter);
    let mut bars = 0;
    for (number, measure) in (0_u32..).zip(part.all("measure").take(MOST_BARS)) {
        match measures.read(number, measure, remarks) {
            Bar::Written(sung) => sung.into_iter().for_each(|sung| add(&mut notes, sung)),
            Bar::Blank => blank.push(number),
        }
        bars = number + 1;
    }
    if part.all("measure").nth(MOST_BARS).is_some() {
        remarks.of_part(name, "the bars after the five thousandth are left out");
    }
    let register = register(name, part);
    (Voice { register, notes, blank }, bars)
}

/// Adds a note, or lengthens the one that it is tied to.
fn add(notes: &mut Vec<Heard>, sung: Sung) {
    match notes.last_mut() {
        Some(last) if sung.is_tied && is_continued(*last, sung.note) => {
            last.duration = last.duration + sung.note.duration;
        }
        _ => notes.push(sung.note),
    }
}

fn is_continued(last: Heard, note: Heard) -> bool {
    last.pitch == note.pitch && last.end() == note.onset
}

/// The register that a part is named after, or else that of its clef.
fn register(name: &str, part: &Node) -> Register {
    let name = name.to_ascii_lowercase();
    let named = Register::ALL.into_iter().find(|register| name.contains(register.name()));
    named.unwrap_or_else(|| {
        let clef = first_attributes(part).and_then(|attributes| attributes.get("clef"));
        clef.map_or(Register::Soprano, by_clef)
    })
}

fn by_clef(clef: &Node) -> Register {
    let line = clef.number::<u8>("line");
    let octaves = clef.number::<i8>("clef-octave-change").unwrap_or(0);
    match (clef.text_of("sign").unwrap_or("G"), line, octaves) {
        ("G", _, ..=-1) | ("C", Some(4), _) => Register::Tenor,
        ("C", Some(2), _) => Register::Mezzo,
        ("C", Some(3), _) => Register::Alto,
        ("C", Some(5), _) | ("F", Some(3), _) => Register::Baritone,
        ("F", ..) => Register::Bass,
        _ => Register::Soprano,
    }
}

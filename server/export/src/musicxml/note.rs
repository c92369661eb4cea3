//! One note, rest or hole as an element. Knows nothing of the bars around it.

use bicinium_analysis::score::Sound;
use bicinium_theory::{Duration, NoteValue, Pitch};

use super::element::Element;
use crate::accidentals::Printed;
use crate::written::{Sign, Tie};

/// The element of a sign in a bar of a length, with its beams; `printed` tells of its accidental.
pub(super) fn element(
    sign: &Sign,
    bar: Duration,
    printed: Printed,
    beams: Vec<Element>,
) -> Element {
    let fills_bar = sign.length.duration() == bar;
    let base = match sign.sound {
        Sound::Blank => Element::new("note").with("print-object", "no"),
        _ => Element::new("note"),
    };
    let sounding = match sign.sound {
        Sound::Note(pitch) => pitched(pitch),
        _ if fills_bar => Element::new("rest").with("measure", "yes"),
        _ => Element::new("rest"),
    };
    base.child(sounding)
        .child(Element::text("duration", sign.length.duration().ticks()))
        .children(ties(sign.tie).map(|kind| Element::new("tie").with("type", kind)))
        .child(Element::text("voice", 1))
        .child(Element::text("type", type_name(sign.length.value)))
        .children((0..sign.length.dots).map(|_| Element::new("dot")))
        .children(accidental(sign.sound, printed))
        .children(beams)
        .children(notations(sign.tie))
}

fn pitched(pitch: Pitch) -> Element {
    let alter = pitch.accidental().value();
    let alter = (alter != 0).then(|| Element::text("alter", alter));
    Element::new("pitch")
        .child(Element::text("step", pitch.letter()))
        .children(alter)
        .child(Element::text("octave", pitch.octave()))
}

fn ties(tie: Tie) -> impl Iterator<Item = &'static str> {
    let stop = tie.stops.then_some("stop");
    stop.into_iter().chain(tie.starts.then_some("start"))
}

fn notations(tie: Tie) -> Option<Element> {
    let tied: Vec<_> = ties(tie).map(|kind| Element::new("tied").with("type", kind)).collect();
    (!tied.is_empty()).then(|| Element::new("notations").children(tied))
}

fn accidental(sound: Sound, printed: Printed) -> Option<Element> {
    let Sound::Note(pitch) = sound else { return None };
    let name = match pitch.accidental().value() {
        ..=-2 => "flat-flat",
        -1 => "flat",
        0 => "natural",
        1 => "sharp",
        2.. => "double-sharp",
    };
    let element = Element::text("accidental", name);
    match printed {
        Printed::Nothing => None,
        Printed::Needed => Some(element),
        Printed::Courtesy => Some(element.with("cautionary", "yes").with("parentheses", "yes")),
    }
}

fn type_name(value: NoteValue) -> &'static str {
    match value {
        NoteValue::Breve => "breve",
        NoteValue::Whole => "whole",
        NoteValue::Half => "half",
        NoteValue::Quarter => "quarter",
        NoteValue::Eighth => "eighth",
        NoteValue::Sixteenth => "16th",
        NoteValue::ThirtySecond => "32nd",
        NoteValue::SixtyFourth => "64th",
    }
}

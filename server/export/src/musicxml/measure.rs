//! The bars of a voice as measures. Knows neither how a note looks nor what is remarked about it.

use bicinium_analysis::score::{Score, Sound, VoiceId};
use bicinium_theory::{Duration, Register};

use super::element::Element;
use super::remarks::{self, Remark};
use super::{beam, note};
use crate::accidentals::{Printed, Said};
use crate::beaming;
use crate::clef::{Clef, Clefs};
use crate::written::{self, Sign};

/// Ticks in a quarter note, as the score counts them.
const DIVISIONS: u32 = Duration::QUARTER.ticks();

/// All measures of a voice, with what is remarked in them; an empty one where there is none yet.
pub(super) fn all(score: &Score, voice: VoiceId, remarks: &[Remark]) -> Vec<Element> {
    let mut said = Said::by(score.setting.key);
    let mut bars = written::bars(score, voice);
    if bars.is_empty() {
        bars.push(written::blank_bar(score.setting.bar_length()));
    }
    let last = bars.len() - 1;
    let measure = |(index, signs): (usize, Vec<Sign>)| {
        said.pass_barline();
        let head = (index == 0).then(|| attributes(score, voice));
        let end = (index == last).then(final_barline);
        Element::new("measure")
            .with("number", index + 1)
            .children(head)
            .children(contents(&signs, score, remarks, &mut said))
            .children(end)
    };
    bars.into_iter().enumerate().map(measure).collect()
}

/// What stands in a bar.
fn contents(signs: &[Sign], score: &Score, remarks: &[Remark], said: &mut Said) -> Vec<Element> {
    let beams = beam::elements(signs, &beaming::groups(signs, &score.setting));
    let told = |(sign, beams)| {
        let note = note(sign, beams, score, said);
        remarks::during(sign, remarks).into_iter().chain([note])
    };
    signs.iter().zip(beams).flat_map(told).collect()
}

fn note(sign: &Sign, beams: Vec<Element>, score: &Score, said: &mut Said) -> Element {
    let printed = match sign.sound {
        Sound::Note(pitch) if !sign.tie.stops => said.strike(pitch),
        _ => Printed::Nothing,
    };
    note::element(sign, score.setting.bar_length(), printed, beams)
}

fn attributes(score: &Score, voice: VoiceId) -> Element {
    let (key, meter) = (score.setting.key, score.setting.meter);
    let key = Element::new("key")
        .child(Element::text("fifths", key.signature()))
        .child(Element::text("mode", key.mode.name()));
    let time = Element::new("time")
        .child(Element::text("beats", meter.beats))
        .child(Element::text("beat-type", meter.unit));
    Element::new("attributes")
        .child(Element::text("divisions", DIVISIONS))
        .child(key)
        .child(time)
        .child(clef(score.setting.registers[voice]))
}

fn clef(register: Register) -> Element {
    let clef = Clef::of(register, Clefs::Modern);
    let sign = Element::text("sign", clef.sign);
    Element::new("clef").child(sign).child(Element::text("line", clef.line))
}

fn final_barline() -> Element {
    Element::new("barline")
        .with("location", "right")
        .child(Element::text("bar-style", "light-heavy"))
}

//! What stands beside the notes: interval figures, harmonies, findings, and the sign of a hole. Each
//! is a remark at an instant; where it goes among the notes is not known here.

use bicinium_analysis::Finding;
use bicinium_analysis::score::{Score, Sound, VoiceId};
use bicinium_analysis::sheet::Exercise;
use bicinium_theory::{Duration, Interval, Inversion, Numeral, TriadQuality};

use super::Extra;
use super::element::Element;
use crate::intervals::{self, Standing};
use crate::written::Sign;

/// Something beside the notes.
#[derive(Clone, Debug)]
pub(super) struct Remark {
    /// When.
    pub at: Duration,
    kind: Kind,
}

#[derive(Clone, Debug)]
enum Kind {
    Figure { interval: Interval, until: Duration },
    Harmony(Numeral),
    Words(String),
}

/// What is remarked while a sign lasts, placed before it. Figures follow one another in time; to where none
/// stood before, one goes forward, and back at the end.
pub(super) fn during(sign: &Sign, remarks: &[Remark]) -> Vec<Element> {
    let lasting = sign.onset..sign.end();
    let (mut beside, mut figures) = (Vec::new(), Vec::new());
    let (mut gone, mut reached) = (sign.onset, sign.onset);
    for remark in remarks.iter().filter(|remark| lasting.contains(&remark.at)) {
        let offset = (remark.at - sign.onset).ticks();
        let offset = (offset > 0).then(|| Element::text("offset", offset));
        match &remark.kind {
            Kind::Harmony(numeral) => beside.push(harmony(*numeral).children(offset)),
            Kind::Words(words) => beside.push(directed(words).children(offset)),
            Kind::Figure { interval, until } => {
                if remark.at > reached {
                    figures.push(moved("forward", remark.at - gone));
                    gone = remark.at;
                }
                reached = (*until).min(sign.end());
                figures.push(figure(*interval, reached - remark.at));
            }
        }
    }
    let back = (gone > sign.onset).then(|| moved("backup", gone - sign.onset));
    beside.into_iter().chain(figures).chain(back).collect()
}

/// The remarks in a voice, in order of time.
pub(super) fn of(
    exercise: &Exercise,
    findings: &[Finding],
    extras: &[Extra],
    voice: VoiceId,
) -> Vec<Remark> {
    let mut remarks = holes(&exercise.score, voice);
    for extra in extras {
        match (extra, voice) {
            // They hang below the upper staff, and so between the two, as far as others draw them there.
            (Extra::Figures, VoiceId::Upper) => remarks.extend(figures(&exercise.score)),
            (Extra::Harmonies, VoiceId::Lower) => remarks.extend(harmonies(exercise)),
            (Extra::Findings, _) => {
                remarks.extend(findings.iter().filter_map(|it| told(it, voice)));
            }
            _ => {}
        }
    }
    remarks.sort_by_key(|remark| remark.at);
    remarks
}

fn holes(score: &Score, voice: VoiceId) -> Vec<Remark> {
    let holes = score.lines[voice].events.iter().filter(|event| event.sound == Sound::Hole);
    holes.map(|hole| Remark { at: hole.onset, kind: Kind::Words("?".to_owned()) }).collect()
}

fn figures(score: &Score) -> impl Iterator<Item = Remark> {
    let figure = |it: Standing| Kind::Figure { interval: it.interval, until: it.until };
    intervals::of(score).into_iter().map(move |it| Remark { at: it.at, kind: figure(it) })
}

fn harmonies(exercise: &Exercise) -> Vec<Remark> {
    let stretches = exercise.verdict.reading.stretches.iter();
    let remark = |(at, numeral)| Remark { at, kind: Kind::Harmony(numeral) };
    stretches.map(|stretch| remark((stretch.onset, stretch.numeral))).collect()
}

/// A finding in words, in the voice that it is about; what is about both stands above the upper.
fn told(finding: &Finding, voice: VoiceId) -> Option<Remark> {
    let is_here = finding.voice.unwrap_or(VoiceId::Upper) == voice && finding.stands();
    let place = finding.place.filter(|_| is_here)?;
    let words = format!("{}: {}", finding.level.name(), finding.message);
    Some(Remark { at: place.onset, kind: Kind::Words(words) })
}

fn figure(interval: Interval, lasts: Duration) -> Element {
    let number = Element::text("figure-number", interval.number());
    Element::new("figured-bass")
        .with("placement", "below")
        .child(Element::new("figure").child(number))
        .child(Element::text("duration", lasts.ticks()))
}

fn moved(way: &'static str, by: Duration) -> Element {
    Element::new(way).child(Element::text("duration", by.ticks()))
}

fn harmony(numeral: Numeral) -> Element {
    let root = Element::text("numeral-root", numeral.degree).with("text", numeral);
    let kind = match (numeral.quality, numeral.seventh) {
        (TriadQuality::Major, false) => "major",
        (TriadQuality::Minor, false) => "minor",
        (TriadQuality::Diminished, false) => "diminished",
        (TriadQuality::Augmented, false) => "augmented",
        (TriadQuality::Major, true) if numeral.degree == 5 => "dominant",
        (TriadQuality::Major, true) => "major-seventh",
        (TriadQuality::Minor, true) => "minor-seventh",
        (TriadQuality::Diminished, true) => "half-diminished",
        (TriadQuality::Augmented, true) => "augmented-seventh",
    };
    let inversion = match numeral.inversion {
        Inversion::Root => 0,
        Inversion::First => 1,
        Inversion::Second => 2,
        Inversion::Third => 3,
    };
    Element::new("harmony")
        .with("placement", "below")
        .child(Element::new("numeral").child(root))
        .child(Element::text("kind", kind).with("text", ""))
        .child(Element::text("inversion", inversion))
}

fn directed(words: &str) -> Element {
    let kind = Element::new("direction-type").child(Element::text("words", words));
    Element::new("direction").with("placement", "above").child(kind)
}

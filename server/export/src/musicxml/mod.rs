//! An exercise as `MusicXML` 4.0, one part for each voice, valid against the schema of the W3C. Knows
//! how a score is put together; what stands in a bar is told in `measure`.

mod beam;
mod element;
mod measure;
mod note;
mod remarks;

use std::io::{self, Write};

use bicinium_analysis::Finding;
use bicinium_analysis::score::VoiceId;
use bicinium_analysis::sheet::Exercise;
use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesText, Event};

use crate::extra::Extra;
use element::Element;

const DOCTYPE: &str = "score-partwise PUBLIC \"-//Recordare//DTD MusicXML 4.0 Partwise//EN\" \
                       \"http://www.musicxml.org/dtds/partwise.dtd\"";

/// Writes an exercise, with what was found in it if findings are among the extras. Fails only if
/// writing does.
pub fn write(
    exercise: &Exercise,
    findings: &[Finding],
    extras: &[Extra],
    out: impl Write,
) -> io::Result<()> {
    let mut writer = Writer::new_with_indent(out, b' ', 2);
    writer.write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)))?;
    writer.write_event(Event::DocType(BytesText::from_escaped(DOCTYPE)))?;
    score(exercise, findings, extras).write(&mut writer)?;
    writer.into_inner().write_all(b"\n")
}

fn score(exercise: &Exercise, findings: &[Finding], extras: &[Extra]) -> Element {
    let title = exercise
        .title
        .as_ref()
        .map(|title| Element::new("work").child(Element::text("work-title", title)));
    let parts = VoiceId::BOTH.map(|voice| part(exercise, findings, extras, voice));
    Element::new("score-partwise")
        .with("version", "4.0")
        .children(title)
        .child(identification(exercise))
        .child(
            Element::new("part-list").children(VoiceId::BOTH.map(|voice| listed(exercise, voice))),
        )
        .children(parts)
}

fn identification(exercise: &Exercise) -> Element {
    let author =
        exercise.by.as_ref().map(|by| Element::text("creator", by).with("type", "composer"));
    let encoding = Element::new("encoding").child(Element::text("software", "bicinium"));
    Element::new("identification").children(author).child(encoding)
}

fn listed(exercise: &Exercise, voice: VoiceId) -> Element {
    let name = exercise.score.setting.registers[voice].name();
    let mut letters = name.chars();
    let capital = letters.next().map(|first| first.to_ascii_uppercase());
    let name: String = capital.into_iter().chain(letters).collect();
    Element::new("score-part").with("id", id(voice)).child(Element::text("part-name", name))
}

fn part(exercise: &Exercise, findings: &[Finding], extras: &[Extra], voice: VoiceId) -> Element {
    let remarks = remarks::of(exercise, findings, extras, voice);
    let bars = measure::all(&exercise.score, voice, &remarks);
    Element::new("part").with("id", id(voice)).children(bars)
}

fn id(voice: VoiceId) -> &'static str {
    match voice {
        VoiceId::Upper => "P1",
        VoiceId::Lower => "P2",
    }
}

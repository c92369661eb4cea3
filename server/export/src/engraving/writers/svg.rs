//! SVG 1.1: every sign is an outline that is written once and used wherever it stands, so that nobody
//! needs the fonts. Groups have classes, notes their ids and what they are in words.

use std::collections::BTreeSet;
use std::fmt::{self, Write};

use quick_xml::escape::escape;

use super::path::{self, Set};
use crate::engraving::display::{Group, Inked, Page, Shape};
use crate::engraving::font::{Font, Stroke};
use crate::engraving::paper::SPACE;
use crate::xml::lawful;

/// The page as an SVG document with a title.
pub fn svg(page: &Page, title: &str) -> String {
    let mut out = String::with_capacity(64 * 1024);
    let (width, height) = (page.width, page.height);
    let [wide, high] = [width, height].map(|it| number(it * SPACE));
    let title = words(title);
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{wide}mm\" height=\"{high}mm\" \
         viewBox=\"0 0 {} {}\" role=\"group\" aria-label=\"{title}\">\n<title>{title}</title>\n",
        number(width),
        number(height)
    );
    define(&mut out, page);
    for group in &page.groups {
        draw(&mut out, group);
    }
    out.push_str("</svg>\n");
    out
}

/// The outlines of all signs on the page, each once, in thousandths of an em.
fn define(out: &mut String, page: &Page) {
    let shapes = page.groups.iter().flat_map(|group| &group.shapes);
    let sets = shapes.flat_map(|inked| path::signs(&inked.shape));
    let used: BTreeSet<_> = sets.map(|set| (set.font, set.sign)).collect();
    out.push_str("<defs>\n");
    for (font, sign) in used {
        let outline = font.outline(sign);
        if !outline.is_empty() {
            let _ = write!(out, "<path id=\"{}\" d=\"", name(font, sign));
            trace(out, &outline, 1000.0);
            out.push_str("\"/>\n");
        }
    }
    out.push_str("</defs>\n");
}

fn name(font: Font, sign: char) -> String {
    let font = match font {
        Font::Music => 'm',
        Font::Roman => 'r',
        Font::Italic => 'i',
    };
    format!("{font}-{:x}", u32::from(sign))
}

fn draw(out: &mut String, group: &Group) {
    let _ = write!(out, "<g class=\"{}\"", group.kind.name());
    if let Some(id) = &group.id {
        let _ = write!(out, " id=\"{}\"", words(id));
    }
    match &group.label {
        Some(label) => {
            let label = words(label);
            let _ = write!(out, " role=\"img\" aria-label=\"{label}\">");
        }
        None if group.text().is_empty() => out.push_str(" aria-hidden=\"true\">"),
        None => {
            let _ = write!(out, " role=\"img\" aria-label=\"{}\">", words(&group.text()));
        }
    }
    for run in group.shapes.chunk_by(|a, b| a.ink == b.ink) {
        shapes(out, run);
    }
    out.push_str("</g>\n");
}

/// Shapes of one colour.
fn shapes(out: &mut String, run: &[Inked]) {
    let Some(first) = run.first() else { return };
    let [red, green, blue] = first.ink.rgb();
    let color = format!("#{red:02x}{green:02x}{blue:02x}");
    let _ = write!(out, "<g class=\"{}\" fill=\"{color}\" stroke=\"none\">", first.ink.name());
    for inked in run {
        match (&inked.shape, path::thickness(inked)) {
            (Shape::Signs { .. }, _) => path::signs(&inked.shape).for_each(|set| place(out, &set)),
            (_, None) => outlined(out, inked, ""),
            (_, Some(thickness)) => {
                let style = format!(
                    " class=\"edge\" fill=\"none\" stroke=\"{color}\" stroke-width=\"{}\" \
                     stroke-linejoin=\"round\"",
                    number(thickness)
                );
                outlined(out, inked, &style);
            }
        }
    }
    out.push_str("</g>");
}

fn place(out: &mut String, set: &Set) {
    if set.font.bounds(set.sign).is_none() {
        return;
    }
    let (x, y) = (number(set.at.x), number(set.at.y));
    // Outlines are in thousandths of an em.
    let scale = number(set.size);
    let _ = write!(
        out,
        "<use href=\"#{}\" transform=\"translate({x} {y}) scale({scale}e-3)\"/>",
        name(set.font, set.sign)
    );
}

fn outlined(out: &mut String, inked: &Inked, style: &str) {
    out.push_str("<path d=\"");
    trace(out, &path::outline(&inked.shape), 1.0);
    let _ = write!(out, "\"{style}/>");
}

fn trace(out: &mut String, strokes: &[Stroke], scale: f64) {
    for stroke in strokes {
        let (letter, points) = match stroke {
            Stroke::Move(to) => ('M', vec![to]),
            Stroke::Line(to) => ('L', vec![to]),
            Stroke::Quad(by, to) => ('Q', vec![by, to]),
            Stroke::Cubic(first, second, to) => ('C', vec![first, second, to]),
            Stroke::Close => ('Z', Vec::new()),
        };
        out.push(letter);
        for (index, point) in points.into_iter().enumerate() {
            let gap = if index == 0 { "" } else { " " };
            let _ = write!(out, "{gap}{} {}", number(point.x * scale), number(point.y * scale));
        }
    }
}

/// A number with at most three digits behind the point.
struct Number(f64);

fn number(value: f64) -> Number {
    Number(value)
}

impl fmt::Display for Number {
    #[expect(clippy::cast_possible_truncation, reason = "the cast saturates")]
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let thousandths = (self.0 * 1000.0).round() as i64;
        let sign = if thousandths < 0 { "-" } else { "" };
        let (whole, rest) = (thousandths.unsigned_abs() / 1000, thousandths.unsigned_abs() % 1000);
        match rest {
            0 => write!(f, "{sign}{whole}"),
            _ if rest % 100 == 0 => write!(f, "{sign}{whole}.{}", rest / 100),
            _ if rest % 10 == 0 => write!(f, "{sign}{whole}.{:02}", rest / 10),
            _ => write!(f, "{sign}{whole}.{rest:03}"),
        }
    }
}

fn words(text: &str) -> String {
    escape(lawful(text).as_ref()).into_owned()
}

#[cfg(test)]
mod tests {
    use super::number;

    #[test]
    fn numbers_are_as_short_as_they_can_be() {
        let written = [0.0, -0.0001, 1.0, -1.5, 0.25, -0.125, 12.0304, 7.06, 1e300, -1e300];
        let written = written.map(|value| number(value).to_string());
        let [largest, least] = ["9223372036854775.807", "-9223372036854775.808"];
        assert_eq!(
            written,
            ["0", "0", "1", "-1.5", "0.25", "-0.125", "12.03", "7.06", largest, least]
        );
    }
}

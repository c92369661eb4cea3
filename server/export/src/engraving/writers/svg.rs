//! SVG 1.1: every sign is an outline that is written once and used wherever it stands, so that nobody
//! needs the fonts. Groups have classes, notes their ids and what they are in words.

use std::collections::BTreeSet;
use std::fmt::Write;

use quick_xml::escape::escape;

use super::path;
use crate::engraving::display::{Group, Inked, Page, Shape};
use crate::engraving::font::{Font, Stroke};
use crate::engraving::geometry::Point;
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
            out.push_str("<path id=\"");
            push_name(out, font, sign);
            out.push_str("\" d=\"");
            trace(out, &outline, 1000.0);
            out.push_str("\"/>\n");
        }
    }
    out.push_str("</defs>\n");
}

fn push_name(out: &mut String, font: Font, sign: char) {
    out.push_str(match font {
        Font::Music => "m-",
        Font::Roman => "r-",
        Font::Italic => "i-",
    });
    let _ = write!(out, "{:x}", u32::from(sign));
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
            (Shape::Signs { .. }, _) => row(out, &inked.shape),
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

/// Signs in a row, in the scale of their outlines.
fn row(out: &mut String, shape: &Shape) {
    let mut signs = path::signs(shape).filter(|set| set.font.bounds(set.sign).is_some()).peekable();
    let Some(first) = signs.peek().copied() else { return };
    out.push_str("<g transform=\"translate(");
    push(out, first.at.x);
    out.push(' ');
    push(out, first.at.y);
    out.push_str(") scale(");
    push(out, first.size);
    out.push_str("e-3)\">");
    for set in signs {
        out.push_str("<use href=\"#");
        push_name(out, set.font, set.sign);
        out.push('"');
        if set.at.x > first.at.x {
            out.push_str(" x=\"");
            push(out, ((set.at.x - first.at.x) / set.size * 1000.0).round());
            out.push('"');
        }
        out.push_str("/>");
    }
    out.push_str("</g>");
}

fn outlined(out: &mut String, inked: &Inked, style: &str) {
    out.push_str("<path d=\"");
    trace(out, &path::outline(&inked.shape), 1.0);
    let _ = write!(out, "\"{style}/>");
}

fn trace(out: &mut String, strokes: &[Stroke], scale: f64) {
    for stroke in strokes {
        match stroke {
            Stroke::Move(to) => points(out, 'M', &[*to], scale),
            Stroke::Line(to) => points(out, 'L', &[*to], scale),
            Stroke::Quad(by, to) => points(out, 'Q', &[*by, *to], scale),
            Stroke::Cubic(first, second, to) => points(out, 'C', &[*first, *second, *to], scale),
            Stroke::Close => out.push('Z'),
        }
    }
}

fn points(out: &mut String, letter: char, points: &[Point], scale: f64) {
    let mut before = letter;
    for point in points {
        out.push(before);
        push(out, point.x * scale);
        out.push(' ');
        push(out, point.y * scale);
        before = ' ';
    }
}

fn number(value: f64) -> String {
    let mut out = String::new();
    push(&mut out, value);
    out
}

/// Writes a number with at most three digits behind the point. A page has some ten thousand of them,
/// so none of them is made a text of its own.
#[expect(clippy::cast_possible_truncation, reason = "the cast saturates")]
fn push(out: &mut String, value: f64) {
    let thousandths = (value * 1000.0).round() as i64;
    if thousandths < 0 {
        out.push('-');
    }
    let (whole, rest) = (thousandths.unsigned_abs() / 1000, thousandths.unsigned_abs() % 1000);
    push_digits(out, whole, 1);
    if rest > 0 {
        out.push('.');
        let (shortened, digits) = match rest {
            _ if rest % 100 == 0 => (rest / 100, 1),
            _ if rest % 10 == 0 => (rest / 10, 2),
            _ => (rest, 3),
        };
        push_digits(out, shortened, digits);
    }
}

/// Writes a whole number with at least so many digits.
fn push_digits(out: &mut String, number: u64, least: u32) {
    let mut unit = 10_u64.pow(least - 1);
    while number / unit >= 10 {
        unit *= 10;
    }
    while unit > 0 {
        out.push(char::from(b'0' + (number / unit % 10) as u8));
        unit /= 10;
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
        let written = written.map(number);
        let [largest, least] = ["9223372036854775.807", "-9223372036854775.808"];
        assert_eq!(
            written,
            ["0", "0", "1", "-1.5", "0.25", "-0.125", "12.03", "7.06", largest, least]
        );
    }
}

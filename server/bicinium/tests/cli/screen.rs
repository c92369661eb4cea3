//! A picture of a screen: a sheet of paper with a staff along its head, and text in columns of one
//! width, whatever letters the reader's machine has. It must not know what the text says.

use std::fmt::Write;

use crate::ansi::{Run, lines};

const COLUMNS: usize = 80;
/// In the units of the picture.
const COLUMN: f32 = 8.0;
const ROW: f32 = 18.0;
const MARGIN: f32 = 24.0;
const HEAD: f32 = 56.0;

const STYLE: &str = "\
text { font: 13.3px ui-monospace, 'DejaVu Sans Mono', Menlo, Consolas, monospace; fill: #2e2a25; \
white-space: pre }
.paper { fill: #fbf8f1; stroke: #d8cfbd }
.staff { stroke: #d8cfbd; fill: none }
.strong { font-weight: bold }
.faint { fill: #8a8172 }
.red { fill: #b3261e }
.yellow { fill: #9a6700 }
.blue { fill: #2f5f9e }
.magenta { fill: #8a2f7a }
.cyan { fill: #18707a }
";

/// The picture of a command and of what it prints, as SVG.
pub fn picture(command: &str, printed: &str) -> String {
    let rows = lines(printed);
    let width = 2.0 * MARGIN + COLUMN * f32::from(u8::try_from(COLUMNS).unwrap());
    let height = HEAD + 2.0 * MARGIN + ROW * count(rows.len());
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" \
         width=\"{width}\" height=\"{height}\" role=\"img\">\n<title>{}</title>\n\
         <style>\n{STYLE}</style>\n<rect class=\"paper\" x=\"0.5\" y=\"0.5\" width=\"{}\" \
         height=\"{}\" rx=\"6\"/>\n",
        escaped(&format!("What {command} prints")),
        width - 1.0,
        height - 1.0,
    );
    for line in 0..5_u8 {
        let y = 16.5 + 7.0 * f32::from(line);
        writeln!(svg, "<path class=\"staff\" d=\"M{MARGIN} {y}H{}\"/>", width - MARGIN).unwrap();
    }
    let prompt = Run { text: format!("> {command}"), look: vec![1] };
    row(&mut svg, HEAD + MARGIN - 12.0, &[prompt]);
    for (number, runs) in rows.iter().enumerate() {
        row(&mut svg, HEAD + MARGIN + ROW * (count(number) + 1.0), runs);
    }
    svg.push_str("</svg>\n");
    svg
}

fn row(svg: &mut String, y: f32, runs: &[Run]) {
    let mut column = 0;
    for run in runs {
        let length = run.text.chars().count();
        let text = run.text.trim_start();
        let visible = text.chars().count();
        if visible > 0 {
            let x = MARGIN + COLUMN * count(column + length - visible);
            let (class, width) = (class(&run.look), COLUMN * count(visible));
            let text = escaped(text);
            writeln!(
                svg,
                "<text{class} x=\"{x}\" y=\"{y}\" textLength=\"{width}\" xml:space=\"preserve\">\
                 {text}</text>"
            )
            .unwrap();
        }
        column += length;
    }
}

/// A number of rows or columns; a screen has few.
fn count(number: usize) -> f32 {
    f32::from(u16::try_from(number).unwrap())
}

fn class(look: &[u8]) -> String {
    let names: Vec<_> = look.iter().map(|code| name(*code)).collect();
    if names.is_empty() { String::new() } else { format!(" class=\"{}\"", names.join(" ")) }
}

fn name(code: u8) -> &'static str {
    match code {
        1 => "strong",
        2 => "faint",
        31 => "red",
        33 => "yellow",
        34 => "blue",
        35 => "magenta",
        36 => "cyan",
        code => panic!("no look is known for {code}"),
    }
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

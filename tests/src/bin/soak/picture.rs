//! The samples as a picture: memory, threads and handles, and how long one waited for findings, over the time. It must
//! not know where they come from.

use plotters::coord::Shift;
use plotters::prelude::{
    ChartBuilder, DrawingArea, IntoDrawingArea, LineSeries, PathElement, RGBColor, SVGBackend,
    WHITE,
};

use super::log::Sample;

const SIZE: (u32, u32) = (1_000, 900);
const INK: RGBColor = RGBColor(30, 80, 140);
const SECOND: RGBColor = RGBColor(190, 100, 20);

type Area<'a> = DrawingArea<SVGBackend<'a>, Shift>;
type Points = Vec<(f64, f64)>;

/// One line of a chart.
struct Line {
    name: &'static str,
    ink: RGBColor,
    points: Points,
}

/// The samples as SVG.
///
/// # Panics
/// When there are no samples.
pub(crate) fn of(samples: &[Sample]) -> String {
    let mut svg = String::new();
    draw(&mut svg, samples).expect("a picture of numbers can be drawn");
    svg
}

fn draw(svg: &mut String, samples: &[Sample]) -> Result<(), String> {
    let root = SVGBackend::with_string(svg, SIZE).into_drawing_area();
    root.fill(&WHITE).map_err(|it| it.to_string())?;
    let [memory, counts, waits] =
        root.split_evenly((3, 1)).try_into().map_err(|_| "three parts")?;
    let points = |of: fn(&Sample) -> f64| -> Points {
        samples.iter().map(|it| (it.at.as_secs_f64() / 60.0, of(it))).collect()
    };
    let line = |name, ink, of| Line { name, ink, points: points(of) };
    chart(&memory, "Memory held, MB", &[line("", INK, |it| number(it.vitals.memory) / 1024.0)])?;
    let threads = line("threads", INK, |it| number(it.vitals.threads));
    let handles = line("handles", SECOND, |it| number(it.vitals.handles));
    chart(&counts, "Threads and open handles", &[threads, handles])?;
    let median = line("half of the answers", INK, |it| it.waits.0.as_secs_f64() * 1e3);
    let longest = line("all", SECOND, |it| it.waits.1.as_secs_f64() * 1e3);
    chart(&waits, "From a key to the findings, ms", &[longest, median])?;
    root.present().map_err(|it| it.to_string())?;
    Ok(())
}

/// A count, none of which is ever too large for a picture.
fn number(count: u64) -> f64 {
    f64::from(u32::try_from(count).unwrap_or(u32::MAX))
}

fn chart(area: &Area<'_>, title: &str, lines: &[Line]) -> Result<(), String> {
    let all = || lines.iter().flat_map(|line| &line.points);
    let minutes = all().map(|point| point.0).fold(0.0, f64::max);
    let most = all().map(|point| point.1).fold(0.0, f64::max) * 1.1;
    let told = |it: plotters::drawing::DrawingAreaErrorKind<_>| it.to_string();
    let mut chart = ChartBuilder::on(area)
        .caption(title, ("sans-serif", 20))
        .margin(12)
        .x_label_area_size(34)
        .y_label_area_size(60)
        .build_cartesian_2d(0.0..minutes, 0.0..most)
        .map_err(told)?;
    chart.configure_mesh().x_desc("minutes").light_line_style(WHITE).draw().map_err(told)?;
    for Line { name, ink, points } in lines {
        let drawn = chart.draw_series(LineSeries::new(points.clone(), *ink)).map_err(told)?;
        if !name.is_empty() {
            let ink = *ink;
            drawn.label(*name).legend(move |(x, y)| PathElement::new([(x, y), (x + 18, y)], ink));
        }
    }
    if lines.len() > 1 {
        chart.configure_series_labels().background_style(WHITE).draw().map_err(told)?;
    }
    Ok(())
}

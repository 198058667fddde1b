//! Lines over the twelve months, each with its own dashes and mark, named above the plot.

use plotters::coord::types::RangedCoordf64;
use plotters::element::{Circle, DashedPathElement, PathElement, Polygon, Text, TriangleMarker};
use plotters::prelude::*;
use plotters::style::RGBColor;
use plotters::style::text_anchor::{HPos, VPos};

use super::chart::{Drawn, FAINT, INK, LETTER, QUIET, framed, letters, step, width};
use crate::model::Plot;

/// The size of a plot.
pub(super) const SIZE: (u32, u32) = (420, 262);
const LEFT: i32 = 42;
const RIGHT: i32 = 12;
const BOTTOM: i32 = 22;
/// Height of a row of names.
const ROW: i32 = 16;
const MONTHS: [&str; 12] = ["J", "F", "M", "A", "M", "J", "J", "A", "S", "O", "N", "D"];

/// Strokes and gaps of a level.
const LEVEL: (i32, i32) = (1, 3);

/// How a line is drawn.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Manner {
    /// Whole and thick, full discs.
    Whole,
    /// Dashed, rings.
    Dashed,
    /// Dotted, triangles.
    Dotted,
    /// Thin, no marks.
    Thin,
}

impl Manner {
    const fn ink(self) -> RGBColor {
        match self {
            Manner::Whole => RGBColor(0x00, 0x5a, 0x8c),
            Manner::Dashed => RGBColor(0x9a, 0x5a, 0x00),
            Manner::Dotted => RGBColor(0x8a, 0x3f, 0x6b),
            Manner::Thin => RGBColor(0x5a, 0x62, 0x66),
        }
    }

    const fn pen(self) -> u32 {
        if matches!(self, Manner::Thin) { 1 } else { 2 }
    }

    /// Strokes and gaps; none for a whole line.
    const fn dash(self) -> Option<(i32, i32)> {
        match self {
            Manner::Whole | Manner::Thin => None,
            Manner::Dashed => Some((7, 4)),
            Manner::Dotted => Some((2, 4)),
        }
    }
}

/// A line.
pub(super) struct Line {
    pub name: String,
    pub manner: Manner,
    /// Month from 1, and figure, in the order they were lived through.
    pub points: Vec<(u8, f64)>,
}

/// A level to be held against.
pub(super) struct Level {
    pub at: f64,
    pub name: &'static str,
}

/// A plot of lines.
pub(super) struct Lines {
    pub id: String,
    pub title: String,
    pub description: String,
    pub lines: Vec<Line>,
    pub level: Option<Level>,
    /// The least span of the axis.
    pub least: (f64, f64),
}

pub(super) fn plot(lines: &Lines) -> Plot {
    let mut body = String::new();
    // Figures past all measure leave a plot with its name and nothing in it.
    let _ = draw(lines, &mut body);
    framed(&lines.id, &lines.title, &lines.description, SIZE, &body)
}

/// The ends of the axis and its step.
fn axis(lines: &Lines) -> (f64, f64, f64) {
    let (mut low, mut high) = lines.least;
    for (_, value) in lines.lines.iter().flat_map(|l| &l.points).filter(|(_, v)| v.is_finite()) {
        (low, high) = (low.min(*value), high.max(*value));
    }
    let step = step(high - low);
    ((low / step).floor() * step, (high / step).ceil() * step, step)
}

type Area<'a> = DrawingArea<SVGBackend<'a>, plotters::coord::Shift>;
type Chart<'a, 'b> = ChartContext<'a, SVGBackend<'b>, Cartesian2d<RangedCoordf64, RangedCoordf64>>;

fn draw(lines: &Lines, body: &mut String) -> Drawn {
    let root = SVGBackend::with_string(body, SIZE).into_drawing_area();
    let top = legend(&root, lines)?;
    let (low, high, step) = axis(lines);
    let area = root.margin(top, BOTTOM, LEFT, RIGHT);
    let mut chart = ChartBuilder::on(&area).build_cartesian_2d(0.5..12.5_f64, low..high)?;
    grid(&root, &mut chart, (low, high, step), top)?;
    if let Some(level) = lines.level.as_ref().filter(|l| l.at > low && l.at < high) {
        chart.draw_series(DashedLineSeries::new(
            [(0.5, level.at), (12.5, level.at)],
            LEVEL.0,
            LEVEL.1,
            INK.stroke_width(1),
        ))?;
    }
    for line in &lines.lines {
        one(&mut chart, line)?;
    }
    root.present()?;
    Ok(())
}

/// The names of the lines with a sample of each; gives how far down they go.
fn legend(root: &Area<'_>, lines: &Lines) -> Result<i32, Box<dyn std::error::Error>> {
    let (mut x, mut y) = (LEFT, 8);
    let names = lines.lines.iter().map(|l| (l.name.as_str(), Some(l.manner)));
    let level = lines.level.iter().map(|l| (l.name, None));
    for (name, manner) in names.chain(level) {
        let wide = 34 + width(name, LETTER) as i32 + 14;
        if x > LEFT && x + wide > SIZE.0 as i32 {
            (x, y) = (LEFT, y + ROW);
        }
        let ink = manner.map_or(INK, Manner::ink);
        let (from, to) = ((x, y), (x + 28, y));
        match manner.map_or(Some(LEVEL), Manner::dash) {
            Some((dash, gap)) => {
                let style = ink.stroke_width(manner.map_or(1, Manner::pen));
                root.draw(&DashedPathElement::new([from, to].into_iter(), dash, gap, style))?;
            }
            None => root.draw(&PathElement::new(vec![from, to], ink.stroke_width(manner.map_or(1, Manner::pen))))?,
        }
        let at = (x + 14, y);
        match manner {
            Some(Manner::Whole) => root.draw(&Circle::new(at, 3, ink.filled()))?,
            Some(Manner::Dashed) => {
                root.draw(&Circle::new(at, 3, WHITE.filled()))?;
                root.draw(&Circle::new(at, 3, ink.stroke_width(1)))?;
            }
            Some(Manner::Dotted) => root.draw(&TriangleMarker::new(at, 4, ink.filled()))?,
            Some(Manner::Thin) | None => {}
        }
        root.draw(&Text::new(name.to_owned(), (x + 34, y), letters(LETTER, INK, HPos::Left, VPos::Center)))?;
        x += wide;
    }
    Ok(y + ROW)
}

fn grid(root: &Area<'_>, chart: &mut Chart<'_, '_>, axis: (f64, f64, f64), top: i32) -> Drawn {
    let (low, high, step) = axis;
    let places = usize::from(step < 1.0);
    let lines = ((high - low) / step).round() as i32;
    for number in 0..=lines {
        let value = low + f64::from(number) * step;
        let pen = if number == 0 { INK } else { FAINT };
        chart.draw_series([PathElement::new(vec![(0.5, value), (12.5, value)], pen.stroke_width(1))])?;
        let (x, y) = chart.backend_coord(&(0.5, value));
        let shown = format!("{value:.places$}");
        root.draw(&Text::new(shown, (x - 5, y), letters(LETTER, INK, HPos::Right, VPos::Center)))?;
    }
    let _ = top;
    for (number, month) in MONTHS.iter().enumerate() {
        let (x, y) = chart.backend_coord(&(number as f64 + 1.0, low));
        root.draw(&Text::new(*month, (x, y + 6), letters(LETTER, QUIET, HPos::Center, VPos::Top)))?;
    }
    Ok(())
}

fn one(chart: &mut Chart<'_, '_>, line: &Line) -> Drawn {
    let ink = line.manner.ink();
    for run in runs(&line.points) {
        let style = ink.stroke_width(line.manner.pen());
        match line.manner.dash() {
            Some((dash, gap)) => {
                chart.draw_series(DashedLineSeries::new(run.clone(), dash, gap, style))?;
            }
            None => {
                chart.draw_series([PathElement::new(run.clone(), style)])?;
            }
        }
        match line.manner {
            Manner::Whole => chart.draw_series(run.iter().map(|p| Circle::new(*p, 3, ink.filled())))?,
            Manner::Dashed => {
                chart.draw_series(run.iter().map(|p| Circle::new(*p, 3, WHITE.filled())))?;
                chart.draw_series(run.iter().map(|p| Circle::new(*p, 3, ink.stroke_width(1))))?
            }
            Manner::Dotted => chart.draw_series(run.iter().map(|p| TriangleMarker::new(*p, 4, ink.filled())))?,
            Manner::Thin => chart.draw_series(std::iter::empty::<Polygon<(f64, f64)>>())?,
        };
    }
    Ok(())
}

/// The points in runs of rising months: a state that begins in March ends in February, which is no neighbor of March.
fn runs(points: &[(u8, f64)]) -> Vec<Vec<(f64, f64)>> {
    let mut out: Vec<Vec<(f64, f64)>> = Vec::new();
    let mut last = u8::MAX;
    for (month, value) in points.iter().filter(|(_, v)| v.is_finite()) {
        let at = (f64::from(*month), *value);
        match out.last_mut() {
            Some(run) if *month > last => run.push(at),
            _ => out.push(vec![at]),
        }
        last = *month;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_year_that_begins_in_march_is_drawn_in_two_runs() {
        let points: Vec<(u8, f64)> = (3..=12).chain(1..=2).map(|m| (m, f64::from(m))).collect();
        let runs = runs(&points);
        assert_eq!(runs.iter().map(Vec::len).collect::<Vec<_>>(), [10, 2]);
        assert_eq!(super::runs(&[(1, f64::NAN)]), Vec::<Vec<(f64, f64)>>::new());
    }

    #[test]
    fn figures_past_all_measure_leave_a_plot_that_reads() {
        for bad in [f64::NAN, f64::INFINITY, 1.0e300, -1.0e300, 0.0] {
            let line = Line { name: "x".into(), manner: Manner::Whole, points: vec![(1, bad), (2, bad)] };
            let lines = Lines {
                id: "x".into(),
                title: "x".into(),
                description: "x".into(),
                lines: vec![line],
                level: None,
                least: (0.0, 1.0),
            };
            let svg = plot(&lines).svg;
            assert!(!svg.contains("NaN") && !svg.contains("inf"), "{bad}");
        }
    }
}

//! Bars lying down, each with its name and its figure; of two kinds, the second is hatched.

use plotters::element::{PathElement, Rectangle, Text};
use plotters::prelude::*;
use plotters::style::RGBColor;
use plotters::style::text_anchor::{HPos, VPos};

use super::chart::{Drawn, FAINT, INK, LETTER, framed, letters, step, width};
use crate::model::Plot;

const WIDE: u32 = 860;
const ROW: i32 = 22;
const BAR: i32 = 13;
/// Room for names; longer ones are cut off and stand whole in the table below.
const NAMES: i32 = 290;
const FIGURES: i32 = 96;
const FIRST: RGBColor = RGBColor(0x3a, 0x5a, 0x66);

/// A bar.
pub(super) struct Bar {
    pub name: String,
    /// One figure a kind.
    pub parts: Vec<f64>,
}

/// A plot of bars.
pub(super) struct Bars {
    pub id: String,
    pub title: String,
    pub description: String,
    /// The names of the kinds; none where there is but one.
    pub kinds: Vec<&'static str>,
    pub bars: Vec<Bar>,
    /// Places behind the point.
    pub places: usize,
}

pub(super) fn plot(bars: &Bars) -> Plot {
    let top = if bars.kinds.is_empty() { 4 } else { 26 };
    let high = top + ROW * bars.bars.len().max(1) as i32 + 22;
    let size = (WIDE, high.unsigned_abs());
    let mut body = String::new();
    // Figures past all measure leave a plot with its name and nothing in it.
    let _ = draw(bars, top, size, &mut body);
    framed(&bars.id, &bars.title, &bars.description, size, &body)
}

fn total(bar: &Bar) -> f64 {
    bar.parts.iter().filter(|v| v.is_finite()).map(|v| v.clamp(0.0, 1e12)).sum()
}

/// A name that fits its room.
fn fitted(name: &str) -> String {
    if width(name, LETTER) <= f64::from(NAMES - 8) {
        return name.to_owned();
    }
    let mut out = String::new();
    for c in name.chars() {
        if width(&out, LETTER) + width("m…", LETTER) > f64::from(NAMES - 8) {
            break;
        }
        out.push(c);
    }
    out.trim_end().to_owned() + "…"
}

fn draw(bars: &Bars, top: i32, size: (u32, u32), body: &mut String) -> Drawn {
    let root = SVGBackend::with_string(body, size).into_drawing_area();
    kinds(&root, bars)?;
    let most = bars.bars.iter().map(total).fold(0.0, f64::max);
    let step = step(most);
    let end = ((most / step).ceil() * step).max(step);
    let room = f64::from(WIDE as i32 - NAMES - FIGURES);
    let x = |value: f64| NAMES + (value / end * room).round() as i32;
    let bottom = top + ROW * bars.bars.len() as i32;
    for number in 0..=(end / step).round() as i32 {
        let value = f64::from(number) * step;
        let pen = if number == 0 { INK } else { FAINT };
        root.draw(&PathElement::new(vec![(x(value), top), (x(value), bottom)], pen.stroke_width(1)))?;
        let shown = format!("{value:.0$}", usize::from(step < 1.0));
        root.draw(&Text::new(shown, (x(value), bottom + 5), letters(LETTER, INK, HPos::Center, VPos::Top)))?;
    }
    for (number, bar) in bars.bars.iter().enumerate() {
        let middle = top + ROW * number as i32 + ROW / 2;
        root.draw(&Text::new(fitted(&bar.name), (NAMES - 8, middle), letters(LETTER, INK, HPos::Right, VPos::Center)))?;
        let (low, high) = (middle - BAR / 2, middle + BAR / 2 + 1);
        let mut from = 0.0;
        for (kind, value) in bar.parts.iter().enumerate().filter(|(_, v)| v.is_finite() && **v > 0.0) {
            let to = from + value.min(1e12);
            filled(&root, (x(from), low), (x(to), high), kind)?;
            from = to;
        }
        let shown = format!("{from:.*}", bars.places);
        let at = (x(from) + 6, middle);
        // The lines of the grid end where a figure stands.
        let wide = width(&shown, LETTER) as i32;
        root.draw(&Rectangle::new([(at.0 - 2, middle - 7), (at.0 + wide + 2, middle + 7)], WHITE.filled()))?;
        root.draw(&Text::new(shown, at, letters(LETTER, INK, HPos::Left, VPos::Center)))?;
    }
    root.present()?;
    Ok(())
}

type Area<'a> = DrawingArea<SVGBackend<'a>, plotters::coord::Shift>;

/// The names of the kinds, each with a sample.
fn kinds(root: &Area<'_>, bars: &Bars) -> Drawn {
    let mut x = NAMES;
    for (kind, name) in bars.kinds.iter().enumerate() {
        filled(root, (x, 4), (x + 24, 17), kind)?;
        root.draw(&Text::new(*name, (x + 31, 11), letters(LETTER, INK, HPos::Left, VPos::Center)))?;
        x += 31 + width(name, LETTER) as i32 + 24;
    }
    Ok(())
}

/// A bar from corner to corner: the first kind full, the second hatched.
fn filled(root: &Area<'_>, from: (i32, i32), to: (i32, i32), kind: usize) -> Drawn {
    if kind == 0 {
        root.draw(&Rectangle::new([from, to], FIRST.filled()))?;
        return Ok(());
    }
    root.draw(&Rectangle::new([from, to], WHITE.filled()))?;
    let high = to.1 - from.1;
    let mut at = from.0 - high;
    while at < to.0 {
        // A stroke up to the right, cut at both ends of the bar.
        let (a, b) = (at.max(from.0), (at + high).min(to.0));
        if b > a {
            let stroke = vec![(a, to.1 - (a - at)), (b, to.1 - (b - at))];
            root.draw(&PathElement::new(stroke, FIRST.stroke_width(1)))?;
        }
        at += 5;
    }
    root.draw(&Rectangle::new([from, to], FIRST.stroke_width(1)))?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_names_are_cut_off_and_bad_figures_left_out() {
        let name = "a very long name ".repeat(30);
        assert!(width(&fitted(&name), LETTER) <= f64::from(NAMES));
        let bars = Bars {
            id: "x".into(),
            title: "x".into(),
            description: "x".into(),
            kinds: vec!["a", "b"],
            bars: vec![Bar { name, parts: vec![f64::NAN, 1e300] }, Bar { name: "y".into(), parts: vec![] }],
            places: 0,
        };
        let svg = plot(&bars).svg;
        assert!(!svg.contains("NaN") && !svg.contains("inf"));
        roxmltree::Document::parse(&svg).unwrap();
    }
}
